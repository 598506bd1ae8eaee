import type { Shift } from '../model/shift.ts';
import { clockTimeOn, type Instant } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';

/** What every view of a shift needs: the facts, the words, the moment. */
export interface View {
  readonly shift: Shift;
  readonly texts: Texts;
  readonly now: Instant;
}

/** A wall-clock time on the site's clock; with its date when it is not the shift's. */
export function at(view: Pick<View, 'shift'>, instant: Instant): string {
  return clockTimeOn(instant, view.shift.day.site.timeZone, view.shift.date);
}

/** At most one decimal, no trailing zero: the figure a person reads. */
export function oneDecimal(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A clock never promises more than it has: times shown are whole minutes, rounded down. */
export function minutesLeft(to: Instant, now: Instant): number {
  return Math.max(0, Math.floor((to - now) / 60_000));
}
