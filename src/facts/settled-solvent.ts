import type { CarryOver, Day } from '../model/day.ts';
import type { RigId } from '../model/id.ts';

/**
 * What settled solvent is good for today. `rinse`: first rinse, never the last. `wrong`: not the solvent of every coating
 * of this rig, and a wrong one can curdle paint. `banned`: the rig takes clean solvent only. `idle`: the rig has no job.
 */
export type SettledUse = 'rinse' | 'wrong' | 'banned' | 'idle';

/** One spelling for names of a solvent that differ in capitals or outer spaces only. */
export const solventKey = (name: string): string => name.trim().toLowerCase();

/** The use of one solvent on one rig, whether or not any is left. */
export function solventUse(day: Day, rig: RigId, solvent: string): SettledUse {
  if (day.rigs[rig]?.mayHoldSettledSolvent === false) return 'banned';
  const needed = day.entry.jobs
    .filter((job) => job.rig === rig)
    .map((job) => {
      const sheet = day.coatings[job.coating];
      return sheet ? solventKey(sheet.flushSolvent) : null;
    });
  if (needed.length === 0) return 'idle';
  return needed.every((name) => name === solventKey(solvent)) ? 'rinse' : 'wrong';
}

/** The use of what the last shift left for this rig; `none`: it left nothing. */
export function settledUse(day: Day, carriedIn: CarryOver | null, rig: RigId): SettledUse | 'none' {
  const uses = (carriedIn?.settledSolvent ?? [])
    .filter((left) => left.rig === rig)
    .map(({ solvent }) => solventUse(day, rig, solvent));
  return uses.find((use) => use === 'rinse') ?? uses[0] ?? 'none';
}
