import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import type { CoatingId, RigId } from '../model/id.ts';
import type { Rig } from '../model/rig.ts';
import { potLifePoints } from './pot-life-points.ts';

/** A rig that has a job today. `rig` is null when the day does not hold it: then nothing about it is known. */
export interface UsedRig {
  readonly id: RigId;
  readonly name: string;
  readonly rig: Rig | null;
  readonly jobs: readonly Job[];
}

/** A coating that has a job today. `sheet` is null when the day does not hold it: then nothing about it is known. */
export interface UsedCoating {
  readonly id: CoatingId;
  readonly name: string;
  readonly sheet: CoatingSheet | null;
  readonly jobs: readonly Job[];
}

/** Today's rigs by id, whatever the order of the jobs. */
export function usedRigs(day: Day): readonly UsedRig[] {
  return grouped(day.entry.jobs, (job) => job.rig).map(([id, jobs]) => ({
    id,
    name: rigName(day, id),
    rig: day.rigs[id] ?? null,
    jobs,
  }));
}

/** Today's coatings by id, whatever the order of the jobs. */
export function usedCoatings(day: Day): readonly UsedCoating[] {
  return grouped(day.entry.jobs, (job) => job.coating).map(([id, jobs]) => ({
    id,
    name: coatingName(day, id),
    sheet: day.coatings[id] ?? null,
    jobs,
  }));
}

/** Today's two-packs. A coating without a sheet counts as one: it may go off. */
export function usedTwoPacks(day: Day): readonly UsedCoating[] {
  return usedCoatings(day).filter(({ sheet }) => sheet?.parts !== 1);
}

/** Today's paints that go off by themselves: two-packs, one-packs with a pot life, and what nobody has a sheet of. */
export function usedThatSets(day: Day): readonly UsedCoating[] {
  return usedCoatings(day).filter(({ sheet }) => potLifePoints(sheet ?? undefined) !== null);
}

export const rigName = (day: Day, id: RigId): string => day.rigs[id]?.name ?? id;
export const coatingName = (day: Day, id: CoatingId): string => day.coatings[id]?.name ?? id;
export const personName = (day: Day, id: string): string => day.people[id]?.name ?? id;

/** An id as a word that ICU select accepts as a case. */
export const selectKey = (id: string): string => id.replaceAll('-', '_');

/** The kind of place as a select case. */
export function placeKey(day: Day): 'open' | 'enclosed' | 'confined' {
  return day.entry.surroundings === 'open-air' ? 'open' : day.entry.surroundings;
}

function grouped<T>(
  items: readonly T[],
  keyOf: (item: T) => string,
): readonly (readonly [string, readonly T[]])[] {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return [...groups].sort(([x], [y]) => (x < y ? -1 : 1));
}
