import { areaKey, type Coat, coatWindow } from '../facts/recoat.ts';
import type { RigId } from '../model/id.ts';
import type { Batch, Shift } from '../model/shift.ts';
import { HOUR, type Instant } from '../model/time.ts';
import { thinnedSteel } from '../trade/steel-history.ts';
import { rigClocks } from './clocks.ts';

const DAY = 24 * HOUR;
/** Nobody has touched it for so long that it is another job by now. */
const KEPT_AFTER_CLOSING = 14 * DAY;
const KEPT_WITHOUT_END = 45 * DAY;

/** RW2: full coats in order. A stripe coat or a repair covers no area, and any full coat after it covers it. */
const order: Readonly<Record<string, number>> = { primer: 0, intermediate: 1, finish: 2 };

/**
 * RW1, RW2: the coats on which nothing has been put yet, those of earlier days first: carried in, with today's steel
 * readings added, and sprayed today. More of the same coat on the same area is one coat: it opens by its last batch and
 * closes by its first.
 */
export function waitingCoats(shift: Shift): readonly Coat[] {
  const today = sprayedToday(shift);
  const readings = shift.readings.map(({ at, steelC: c }) => ({ at, c }));
  const coats = new Map<string, Coat>();
  for (const coat of [...(shift.carriedIn?.coats ?? []), ...today]) {
    const key = coatKey(coat);
    const other = coats.get(key);
    coats.set(key, {
      ...coat,
      area: other?.area ?? coat.area,
      firstAt: Math.min(coat.firstAt, other?.firstAt ?? coat.firstAt),
      at: Math.max(coat.at, other?.at ?? coat.at),
      steel: other?.steel ?? coat.steel,
    });
  }
  return [...coats.values()]
    .filter((coat) => !today.some((upper) => covers(upper, coat)))
    .map((coat) => ({ ...coat, steel: since(coat.firstAt, [...coat.steel, ...readings]) }));
}

/** RW3: what the next day is told of: coats that wait, until they have been closed, or known, for too long. */
export function coatsToCarry(shift: Shift, now: Instant): readonly Coat[] {
  return waitingCoats(shift)
    .filter((coat) => {
      const closes = coatWindow(shift.day, coat)?.closes;
      const known = closes && closes.maxHours !== null;
      return now < (known ? closes.at + KEPT_AFTER_CLOSING : coat.at + KEPT_WITHOUT_END);
    })
    .map((coat) => ({ ...coat, steel: thinnedSteel(coat.steel, coat.firstAt) }));
}

/** Names one coat on one area within a shift. */
export function coatKey({ area, coating, coat }: Coat): string {
  return `${areaKey(area)}:${coat}:${coating}`;
}

function covers(upper: Coat, lower: Coat): boolean {
  const rank = order[upper.coat];
  if (rank === undefined || areaKey(upper.area) !== areaKey(lower.area)) return false;
  return rank > (order[lower.coat] ?? -1) && upper.firstAt > lower.firstAt;
}

function sprayedToday(shift: Shift): readonly Coat[] {
  const jobs = [...(shift.pastJobs ?? []), ...shift.day.entry.jobs];
  return jobs.flatMap(({ area, coating, coat, rig }) => {
    const batches = shift.rigs[rig]?.batches.filter((batch) => batch.coating === coating) ?? [];
    const last = batches.at(-1);
    if (!last) return [];
    const firstAt = Math.min(...batches.map(({ at }) => at));
    return [
      { area, coating, coat, firstAt, at: Math.max(firstAt, sprayedUntil(shift, rig, last)), steel: [] },
    ];
  });
}

/** RW1: no paint of a batch is sprayed after the flush that followed it; before that, as long as it can be. */
function sprayedUntil(shift: Shift, rig: RigId, batch: Batch): Instant {
  const state = shift.rigs[rig];
  const flushes = [...(state?.flushes ?? []), ...(state?.flush ? [state.flush] : [])];
  const flushed = flushes.find(({ startedAt }) => startedAt >= batch.at);
  if (flushed) return flushed.startedAt;
  const dead = rigClocks(shift, rig).map(({ times }) => times.deadAt);
  return dead.length > 0 ? Math.max(batch.at, ...dead) : Math.max(batch.at, shift.day.endsAt);
}

/** The readings from a moment on, and the last one before it: it held then. Oldest first, each moment's reading once. */
function since(from: Instant, readings: Coat['steel']): Coat['steel'] {
  const known = new Map(readings.map((reading) => [`${reading.at}:${reading.c}`, reading]));
  const sorted = [...known.values()].sort((x, y) => x.at - y.at || x.c - y.c);
  const before = sorted.filter(({ at }) => at <= from).at(-1);
  return sorted.filter(({ at }) => at > from || at === before?.at);
}
