import { type OpenItem, openItems } from '../flow/shift-record.ts';
import type { View } from './context.ts';
import { stepName } from './flush.ts';

/** SR1: what is open at the end, one line each. */
export function openTexts(view: View): readonly string[] {
  return openItems(view.shift).map((item) => openText(view, item));
}

export function openText(view: View, item: OpenItem): string {
  const { texts } = view;
  if (item.text !== 'open.step') return texts.say(item.text, { name: item.name });
  const { name, reason } = item;
  return texts.say('open.step', { name, step: stepName(view, item.rig, item.step), reason });
}
