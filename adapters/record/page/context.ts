import type { Shift } from '../../../src/model/shift.ts';
import type { Texts } from '../../../src/texts/texts.ts';
import type { View } from '../../../src/views/context.ts';
import type { ShiftRecord } from '../record-document.ts';
import { instantOfStamp, type Stamp } from '../stamp.ts';
import type { Who } from '../summary/shapes.ts';
import type { Summary } from '../summary/summary.ts';
import type { Walk } from '../walk.ts';

/** What every part of the page draws on. The figures come from the summary: what is printed is what verifies. */
export interface Page {
  readonly record: ShiftRecord;
  readonly summary: Summary;
  readonly walk: Walk;
  readonly shift: Shift;
  readonly texts: Texts;
  readonly view: View;
}

/** "HH:MM" on the site's clock; with the date when it is another day, and the offset when the clock was changed. */
export function clock({ summary }: Page, moment: Stamp): string {
  return withDay(summary, moment, moment.slice(11, 16));
}

/** "HH:MM:SS", for bells. */
export function clockSeconds({ summary }: Page, moment: Stamp): string {
  return withDay(summary, moment, moment.slice(11, 19));
}

function withDay({ date, day }: Summary, moment: Stamp, time: string): string {
  const on = moment.slice(0, 10);
  const offset = offsetOf(moment) === offsetOf(day.startsAt) ? '' : ` (UTC${offsetOf(moment)})`;
  return `${on === date ? '' : `${on} `}${time}${offset}`;
}

export function offsetOf(moment: Stamp): string {
  const offset = moment.slice(23);
  return offset === 'Z' ? '+00:00' : offset;
}

/** Whole minutes from one moment to another, rounded down: no clock promises more than it had. */
export function minutesBetween(from: Stamp, to: Stamp): number {
  return Math.floor((instantOfStamp(to) - instantOfStamp(from)) / 60_000);
}

export function whoName({ texts }: Page, who: Who): string {
  if (who.person) return who.person.name;
  return who.kind === 'unknown' ? texts.say('stop.unknown-person') : texts.say('paper.event.potbell');
}

export function names(people: readonly { readonly name: string }[]): string {
  return people.map((person) => person.name).join(', ');
}
