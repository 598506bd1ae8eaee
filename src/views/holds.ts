import { namesOf } from '../flow/decision.ts';
import { type Hold, holdsOf } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { list, message, note } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import { at, type View } from './context.ts';

/** One hold in words: what stands against spraying, with its numbers. */
export function holdText(view: View, hold: Hold): string {
  const { shift, texts } = view;
  switch (hold.kind) {
    case 'stop-work':
      return texts.say('hold.stop-work', { text: hold.text });
    case 'not-briefed':
      return texts.say('hold.not-briefed');
    case 'unsigned':
      return texts.say('hold.unsigned', { people: namesOf(shift, hold.people) });
    case 'concern':
      return texts.say('hold.concern', { text: hold.text });
    case 'no-reading':
      return texts.say('hold.no-reading');
    case 'old-reading':
      return texts.say('hold.old-reading', { time: at(view, hold.takenAt) });
    case 'climate':
      return texts.say(`hold.climate-${hold.limit}`, {
        coating: shift.day.coatings[hold.coating]?.name ?? hold.coating,
        value: towardsTheLimit(hold.value, hold.allowed),
        allowed: hold.allowed,
      });
    case 'rig-unchecked':
      return texts.say('hold.rig-unchecked', { rig: rigName(shift, hold.rig) });
    case 'rig-tagged':
      return tagText(view, hold.rig);
    case 'unflushed-line':
      return unflushedText(view, hold.rig);
    case 'over-rating':
      return texts.say('hold.over-rating', {
        rig: rigName(shift, hold.rig),
        bar: Math.ceil(hold.bar),
        part: texts.say(`word.part.${hold.part as 'hose'}`),
        rated: hold.rated,
      });
    case 'rating-unknown':
      return texts.say('hold.rating-unknown', { rig: rigName(shift, hold.rig) });
    case 'pot-life-unknown':
      return texts.say('hold.pot-life-unknown', {
        coating: shift.day.coatings[hold.coating]?.name ?? hold.coating,
      });
    case 'past-pot-life':
      return texts.say('hold.past-pot-life', { rig: rigName(shift, hold.rig) });
  }
}

/** Rounding must not make 2.96 °C read "3 °C, at least 3 °C is needed": round away from the limit that was missed. */
function towardsTheLimit(value: number, allowed: number): number {
  const ten = value * 10;
  return (value < allowed ? Math.floor(ten) : Math.ceil(ten)) / 10;
}

/** Paint of an earlier shift in the line: what it is and since when. */
export function unflushedText(view: View, rig: string): string {
  const { shift, texts } = view;
  const left = shift.rigs[rig]?.unflushed;
  const coating = left ? (shift.day.coatings[left.coating]?.name ?? left.coating) : '';
  return texts.say('hold.unflushed-line', {
    rig: rigName(shift, rig),
    coating,
    since: left ? at(view, left.mixedAt) : '',
  });
}

export function tagText(view: View, rig: string): string {
  const { shift, texts } = view;
  const tag = shift.rigs[rig]?.tag;
  if (tag?.cause === 'not-flushed') return texts.say('hold.rig-tagged-line', { rig: rigName(shift, rig) });
  return texts.say('hold.rig-tagged', { rig: rigName(shift, rig), text: tagWords(view, tag?.text ?? '') });
}

/** Names of failed checks in words; a person's own words stay as they are. */
export function tagWords(view: View, text: string): string {
  const parts = text.split('; ').map((part) => {
    const [checks = '', ...rest] = part.split(': ');
    const named = checks.split(', ').map((word) => checkWord(view, word) ?? word);
    return [named.join(', '), ...rest].join(': ');
  });
  return parts.join('; ');
}

function checkWord({ texts }: View, check: string): string | null {
  switch (check) {
    case 'earth-lead':
    case 'hose-and-fittings':
    case 'trigger-lock':
    case 'tip-guard':
    case 'filters':
    case 'gauge':
    case 'wash-pot':
    case 'metal-pail':
    case 'extinguisher':
      return texts.say(`word.check.${check}`);
    default:
      return null;
  }
}

/** The panel that leads every page: what holds, or that nothing known does, which is never a permission. */
export function holdsMessage(view: View): Message {
  const { shift, texts, now } = view;
  const holds = holdsOf(shift, now);
  if (holds.length === 0) {
    const none = texts.say('hold.none');
    return message(none, 'plain', note('plain', none));
  }
  const title = texts.say('hold.title', { count: holds.length });
  const tone = shift.stop ? 'danger' : 'attention';
  return message(title, tone, list(holds.map((hold) => holdText(view, hold))));
}
