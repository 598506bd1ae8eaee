import type { CarryOver, Day } from '../model/day.ts';
import type { RigId } from '../model/id.ts';

/**
 * What settled solvent is good for today. `rinse`: first rinse, never the last. `wrong`: not the solvent of every coating
 * of this rig, and a wrong one can curdle paint. `banned`: the rig takes clean solvent only. `idle`: the rig has no job.
 */
export type SettledUse = 'rinse' | 'wrong' | 'banned' | 'idle';

/** The use of one solvent on one rig, whether or not any is left. */
export function solventUse(day: Day, rig: RigId, solvent: string): SettledUse {
  if (day.rigs[rig]?.mayHoldSettledSolvent === false) return 'banned';
  const needed = day.entry.jobs
    .filter((job) => job.rig === rig)
    .map((job) => day.coatings[job.coating]?.flushSolvent.trim().toLowerCase());
  if (needed.length === 0) return 'idle';
  return needed.every((name) => name === solvent.trim().toLowerCase()) ? 'rinse' : 'wrong';
}

/** The use of what the last shift left for this rig; `none`: it left nothing. */
export function settledUse(day: Day, carriedIn: CarryOver | null, rig: RigId): SettledUse | 'none' {
  const uses = (carriedIn?.settledSolvent ?? [])
    .filter((left) => left.rig === rig)
    .map(({ solvent }) => solventUse(day, rig, solvent));
  return uses.find((use) => use === 'rinse') ?? uses[0] ?? 'none';
}
