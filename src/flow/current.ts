import type { Shift } from '../model/shift.ts';
import { HOUR, type Instant } from '../model/time.ts';
import { paintIsAlive } from './clocks.ts';

/** Crews work over their time; for this long after the planned end a shift is still the one on the board. */
const OVERTIME_MS = HOUR;

/**
 * The shift people mean by "today": the one that is running, even when tomorrow has been posted already; else the next one
 * posted; else one that nobody closed; else the last one closed.
 */
export function currentShift(shifts: readonly Shift[], now: Instant): Shift | null {
  const newest = [...shifts].sort((x, y) => (x.date < y.date ? 1 : -1));
  const open = newest.filter(({ status }) => status === 'open');
  const running = open.find(
    (shift) =>
      shift.day.prestartAt <= now && (now <= shift.day.endsAt + OVERTIME_MS || paintIsAlive(shift, now)),
  );
  const posted = open.filter(({ day }) => day.prestartAt > now).at(-1);
  return running ?? posted ?? open[0] ?? newest[0] ?? null;
}
