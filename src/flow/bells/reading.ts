import type { Shift } from '../../model/shift.ts';
import { type Instant, MINUTE } from '../../model/time.ts';
import { nextReadingDue } from '../holds.ts';
import { type Closing, closings } from '../trend.ts';
import { bell, type WantedBell } from './wanted.ts';

/** So long before a limit is met: time to spray out what is mixed. Common practice, no source. */
const CLOSING_BEFORE_MS = 30 * MINUTE;

export function readingBells(shift: Shift): readonly WantedBell[] {
  const last = shift.readings.at(-1);
  if (!last) return [];
  // With every line flushed there is nothing to measure for; the next batch meets the old reading as a hold.
  const rigs = Object.values(shift.rigs);
  const spraying = rigs.some(({ line, pot }) => line || pot);
  const before = rigs.every(({ batches }) => batches.length === 0);
  if (!(spraying || before)) return [];
  const bells = [
    bell('reading-due', String(last.at), nextReadingDue(shift, last), { until: shift.day.endsAt }),
    ...closings(shift).map(closingBell),
  ];
  return bells
    .filter(({ dueAt }) => dueAt < shift.day.endsAt)
    .map((one) => ({ ...one, knownAt: spraying ? firstPaint(shift) : one.dueAt }));
}

/**
 * CO7: crew and foreman hear of it before it is a hold. Rung once, as it informs: the next reading is what is chased. After
 * the time it warns of it says nothing new.
 */
function closingBell({ last, goneAt }: Closing): WantedBell {
  const dueAt = Math.max(last.at, goneAt - CLOSING_BEFORE_MS);
  const until = Math.max(goneAt, dueAt + MINUTE);
  return bell('margin-closing', String(last.at), dueAt, { first: 'foreman', once: true, until });
}

/** When the paint now in the lines began to come in: before that there was nothing to measure for. */
function firstPaint(shift: Shift): Instant {
  const logged = Object.values(shift.rigs).flatMap(({ line, pot, batches }) =>
    [line, pot].flatMap((mixed) => batches.find(({ id }) => id === mixed?.batch)?.loggedAt ?? []),
  );
  return logged.length === 0 ? shift.postedAt : Math.min(...logged);
}
