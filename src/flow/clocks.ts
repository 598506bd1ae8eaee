import { flushPlanOf } from '../facts/flush-plan.ts';
import { potLifePoints } from '../facts/pot-life-points.ts';
import type { Day } from '../model/day.ts';
import type { RigId } from '../model/id.ts';
import type { Mixed, Shift } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import { type ClockTimes, clockTimes, doseBetween } from '../trade/dose.ts';
import { asCounted } from './standing.ts';

/** The age of mixed paint in one place, with the times people are told. */
export interface RigClock {
  readonly where: 'pot' | 'line';
  /** The paint with every temperature it is counted with, estimated ones among them. */
  readonly mixed: Mixed;
  readonly times: ClockTimes;
}

/** PL1: the clock of a pot or a line; null for a one-pack, which does not go off in the line. */
export function clockOf(day: Day, rigId: RigId, where: 'pot' | 'line', inside: Mixed): RigClock | null {
  const rig = day.rigs[rigId];
  const points = potLifePoints(day.coatings[inside.coating]);
  if (!rig || !points) return null;
  const mixed = asCounted(inside);
  const times = clockTimes({
    points,
    history: mixed.history,
    mixedAt: mixed.mixedAt,
    reserveFraction: day.policy.reservePct / 100,
    flushMinutes: flushPlanOf(day, rig).minutes,
  });
  return { where, mixed, times };
}

/**
 * PL2: the clocks that count on a rig, the one that runs out first at the front. A pot that is no older than the line
 * and holds the same batch says nothing new and is left out.
 */
export function rigClocks(shift: Shift, rigId: RigId): readonly RigClock[] {
  const state = shift.rigs[rigId];
  if (!state) return [];
  const line = state.line && clockOf(shift.day, rigId, 'line', state.line);
  const pot = state.pot && clockOf(shift.day, rigId, 'pot', state.pot);
  if (line && pot && line.mixed.batch === pot.mixed.batch && !later(line, pot)) return [line];
  return [line, pot]
    .filter((clock) => clock !== null)
    .sort((x, y) => x.times.useBy - y.times.useBy || x.times.deadAt - y.times.deadAt);
}

/** Whether any of a clock's times comes after the other's: then the other one has something to say. */
function later({ times }: RigClock, other: RigClock): boolean {
  const { useBy, startFlushBy, deadAt } = other.times;
  return times.useBy > useBy || times.startFlushBy > startFlushBy || times.deadAt > deadAt;
}

/** Whether mixed paint that has not gone off yet is in any rig: bells about it are still to come. */
export function paintIsAlive(shift: Shift, now: Instant): boolean {
  return Object.keys(shift.rigs).some((rig) => rigClocks(shift, rig).some(({ times }) => times.deadAt > now));
}

/** Used-up share of the pot life at `now`; 1 and more is past it. */
export function usedUp(day: Day, clock: RigClock, now: Instant): number {
  const points = potLifePoints(day.coatings[clock.mixed.coating]);
  if (!points) return 0;
  return doseBetween(points, clock.mixed.history, clock.mixed.mixedAt, Math.max(now, clock.mixed.mixedAt));
}

export type Conflict =
  | {
      readonly kind: 'break';
      readonly index: number;
      readonly from: Instant;
      readonly to: Instant;
      readonly flushBy: Instant;
    }
  | { readonly kind: 'end'; readonly endsAt: Instant; readonly flushBy: Instant };

/**
 * PL6: what the day has in store for this paint: a break in which it runs out, and the end of the shift before which
 * it has to be out of the line. Said when the batch is logged, while something can still be done.
 */
export function conflictsOf(day: Day, rigId: RigId, clock: RigClock, now: Instant): readonly Conflict[] {
  const rig = day.rigs[rigId];
  if (!rig) return [];
  const flushMs = flushPlanOf(day, rig).minutes * MINUTE;
  const { useBy } = clock.times;
  const found: Conflict[] = [];
  day.breaks.forEach(({ from, to }, index) => {
    if (from > now && useBy > from - flushMs && useBy <= to + flushMs)
      found.push({ kind: 'break', index, from, to, flushBy: from - flushMs });
  });
  if (useBy > day.endsAt - flushMs)
    found.push({ kind: 'end', endsAt: day.endsAt, flushBy: day.endsAt - flushMs });
  return found;
}
