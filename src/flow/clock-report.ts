import { flushPlanOf } from '../facts/flush-plan.ts';
import { potLifePoints } from '../facts/pot-life-points.ts';
import type { Day } from '../model/day.ts';
import type { RigId } from '../model/id.ts';
import type { Instant } from '../model/time.ts';
import { type ClockTimes, clockTimes } from '../trade/dose.ts';
import { type PotLife, potLifeMinutes } from '../trade/pot-life.ts';
import { type RigClock, usedUp } from './clocks.ts';
import { tempAt } from './mixed-history.ts';

/** "What if it were warmer" is asked with this much, °C. */
export const WARMER_BY_C = 5;
/** No paint is asked about beyond this, °C. */
const HOTTEST_C = 120;

/** PL15: all there is to say of one clock at one moment. */
export interface ClockReport {
  readonly clock: RigClock;
  /** Used-up share of the pot life; 1 and more is past it. */
  readonly used: number;
  /** What the paint is counted as now, °C, and the pot life at that, with where the figure comes from. */
  readonly nowC: number;
  readonly lifeNow: PotLife;
  /** The times if the paint were 5 °C warmer from now on; null when it is hotter than anybody can say. */
  readonly ifWarmer: ClockTimes | null;
}

/** The report of a clock of this rig; null for a coating without a pot life. */
export function clockReport(day: Day, rigId: RigId, clock: RigClock, now: Instant): ClockReport | null {
  const { mixed } = clock;
  const rig = day.rigs[rigId];
  const points = potLifePoints(day.coatings[mixed.coating]);
  if (!rig || !points) return null;
  const from = Math.max(now, mixed.mixedAt);
  const nowC = tempAt(mixed, from);
  const past = mixed.history.filter((step) => step.at < from);
  const toCome = mixed.history.filter((step) => step.at > from);
  const warmed = [{ at: from, c: nowC }, ...toCome].map(({ at, c }) => ({ at, c: c + WARMER_BY_C }));
  // The first temperature also covers the time before it, so that what is past must begin the history.
  const start = past.length > 0 ? past : [{ at: mixed.mixedAt, c: nowC }];
  const ifWarmer = warmed.every(({ c }) => c <= HOTTEST_C)
    ? clockTimes({
        points,
        history: [...start, ...warmed],
        mixedAt: mixed.mixedAt,
        reserveFraction: day.policy.reservePct / 100,
        flushMinutes: flushPlanOf(day, rig).minutes,
      })
    : null;
  return {
    clock,
    used: usedUp(day, clock, now),
    nowC,
    lifeNow: potLifeMinutes(points, nowC),
    ifWarmer,
  };
}
