import type { Refusal } from '../flow/decision.ts';
import { message, note } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import type { FlushStep, RigCheck } from '../model/checks.ts';
import type { Role } from '../model/site.ts';
import type { TextId } from '../texts/text-ids.ts';
import type { Texts } from '../texts/texts.ts';

/** Values in a refusal that are words of ours and not of the person's. */
const named: Readonly<Record<string, (value: string, texts: Texts) => string>> = {
  // A refusal does not know the rig: it must not name the air regulator of a pump that has none.
  step: (value, texts) =>
    texts.say(value === 'power-off' ? 'step.power-off-any' : `step.${value as FlushStep}`),
  check: (value, texts) => texts.say(`check.${value as RigCheck}`),
  role: (value, texts) => texts.say(`word.role.${value as Role}`),
};

/** A "no" as the person reads it. Placeholders were checked by `refuse`; the cast only forgets which text it was. */
export function refusalText(refusal: Refusal, texts: Texts): string {
  const params = Object.fromEntries(
    Object.entries(refusal.params).map(([key, value]) => [key, named[key]?.(String(value), texts) ?? value]),
  );
  return (texts.say as (id: TextId, params: typeof refusal.params) => string)(refusal.text, params);
}

export function refusalMessage(refusal: Refusal, texts: Texts): Message {
  const text = `${texts.say('refusal.title')}. ${refusalText(refusal, texts)}`;
  return message(text, 'attention', note('attention', text));
}
