import type { Shift } from '../model/shift.ts';
import { clockTime, clockTimeOn, HOUR, type Instant } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';

/** What every view of a shift needs: the facts, the words, the moment. */
export interface View {
  readonly shift: Shift;
  readonly texts: Texts;
  readonly now: Instant;
}

/** Within this much of the start of the shift a time of day can mean one thing only, also past midnight. */
const SAME_SHIFT_MS = 18 * HOUR;

/** A wall-clock time on the site's clock; with its date when it is not of this shift. */
export function at({ shift }: Pick<View, 'shift'>, instant: Instant): string {
  const { startsAt, site } = shift.day;
  if (instant > startsAt - 6 * HOUR && instant < startsAt + SAME_SHIFT_MS)
    return clockTime(instant, site.timeZone);
  return clockTimeOn(instant, site.timeZone, shift.date);
}

/** A clock never promises more than it has: times shown are whole minutes, rounded down. */
export function minutesLeft(to: Instant, now: Instant): number {
  return Math.max(0, Math.floor((to - now) / 60_000));
}
