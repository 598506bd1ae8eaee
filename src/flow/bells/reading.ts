import type { Shift } from '../../model/shift.ts';
import type { Instant } from '../../model/time.ts';
import { nextReadingDue } from '../holds.ts';
import { bell, type WantedBell } from './wanted.ts';

export function readingBells(shift: Shift): readonly WantedBell[] {
  const last = shift.readings.at(-1);
  if (!last) return [];
  // With every line flushed there is nothing to measure for; the next batch meets the old reading as a hold.
  const rigs = Object.values(shift.rigs);
  const spraying = rigs.some(({ line, pot }) => line || pot);
  const before = rigs.every(({ batches }) => batches.length === 0);
  const dueAt = nextReadingDue(shift, last);
  if (dueAt >= shift.day.endsAt || !(spraying || before)) return [];
  return [
    bell('reading-due', String(last.at), dueAt, {
      until: shift.day.endsAt,
      knownAt: spraying ? firstPaint(shift) : dueAt,
    }),
  ];
}

/** When the paint now in the lines began to come in: before that there was nothing to measure for. */
function firstPaint(shift: Shift): Instant {
  const logged = Object.values(shift.rigs).flatMap(({ line, pot, batches }) =>
    [line, pot].flatMap((mixed) => batches.find(({ id }) => id === mixed?.batch)?.loggedAt ?? []),
  );
  return logged.length === 0 ? shift.postedAt : Math.min(...logged);
}
