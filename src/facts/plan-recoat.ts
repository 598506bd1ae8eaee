import type { CarryOver, Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import type { Instant } from '../model/time.ts';
import type { ClosedSpan } from '../trade/plan/types.ts';
import { recoatWindow } from '../trade/recoat.ts';
import { expectedWeather } from './forecast.ts';
import { areaKey, coatWindow } from './recoat.ts';

/** When a job of today was sprayed, as far as the plan knows; null: not planned to its end. */
export interface Sprayed {
  readonly firstAt: Instant;
  readonly lastAt: Instant;
}

export interface RecoatClosed {
  readonly closed: readonly ClosedSpan[];
  /** There is a coat below whose sheet has no recoat times: nobody knows when the next may go on. */
  readonly unknown: boolean;
}

const ALWAYS = { from: -8e15, to: 8e15 };

/** When a job cannot go on because the coat below it is not ready, or has been left too long. */
export function recoatClosed(
  day: Day,
  carriedIn: CarryOver | null,
  index: number,
  sprayed: ReadonlyMap<number, Sprayed | null>,
): RecoatClosed {
  const job = day.entry.jobs[index];
  if (!job) return { closed: [], unknown: false };
  const below = coatBelow(day.entry.jobs, index);
  if (below !== null) {
    const done = sprayed.get(below);
    const coating = day.entry.jobs[below]?.coating ?? '';
    // Until it is known when the coat below goes on, the next one waits.
    if (!done) return { closed: [{ ...ALWAYS, why: 'recoat' }], unknown: false };
    const steel = expectedWeather(day).map(({ at, steelC }) => ({ at, c: steelC }));
    return closedBy(recoatWindow({ table: day.coatings[coating]?.recoat ?? [], ...done, steel }));
  }
  const left = (carriedIn?.coats ?? []).filter(({ area }) => areaKey(area) === areaKey(job.area));
  const found = left.map((coat) => closedBy(coatWindow(day, coat)));
  return {
    closed: found.flatMap(({ closed }) => closed),
    unknown: found.some(({ unknown }) => unknown),
  };
}

/** The job of today that puts the coat before this one on the same area. */
function coatBelow(jobs: readonly Job[], index: number): number | null {
  const area = areaKey(jobs[index]?.area ?? '');
  const below = jobs.findLastIndex((job, i) => i < index && areaKey(job.area) === area);
  return below < 0 ? null : below;
}

function closedBy(window: ReturnType<typeof recoatWindow>): RecoatClosed {
  if (!window) return { closed: [], unknown: true };
  const early: ClosedSpan = { from: ALWAYS.from, to: window.opensAt, why: 'recoat' };
  const late: readonly ClosedSpan[] = window.closes
    ? [{ from: window.closes.at, to: ALWAYS.to, why: 'recoat' }]
    : [];
  return { closed: [early, ...late], unknown: false };
}
