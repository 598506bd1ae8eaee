import type { CarryOver, Day } from '../model/day.ts';
import { own } from '../model/own.ts';
import { solventKey } from './settled-solvent.ts';
import type { UsedRig } from './used.ts';

/** What is new for a line that old film lies in. `unknown`: nobody knows what ran in it before. */
export type RigChange =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'solvent'; readonly before: string; readonly now: readonly string[] }
  | { readonly kind: 'coating'; readonly before: string; readonly now: readonly string[] };

/**
 * Against what was in this rig last; null when it was the same coating without another solvent, or flushed with the same
 * solvent and no more is known. Another solvent loosens old film under the same paint as well, so it is asked first.
 */
export function rigChange(day: Day, carriedIn: CarryOver | null, { id, jobs }: UsedRig): RigChange | null {
  const last = lastIn(carriedIn, id);
  const coatings = [...new Set(jobs.map(({ coating }) => coating))].sort();
  const before = last.solvent ?? (last.coating && own(day.coatings, last.coating)?.flushSolvent);
  const solvents = [...new Set(coatings.map((coating) => own(day.coatings, coating)?.flushSolvent ?? null))];
  const same = before && solvents.every((name) => name !== null && sameName(name, before));
  const now = solvents
    .flatMap((name) => (name === null || (before && sameName(name, before)) ? [] : name))
    .sort();
  if (before && now.length > 0) return { kind: 'solvent', before, now };
  if (last.coating !== null) {
    const others = coatings.filter((one) => one !== last.coating);
    return others.length > 0 ? { kind: 'coating', before: last.coating, now: others } : null;
  }
  return same ? null : { kind: 'unknown' };
}

const sameName = (x: string, y: string) => solventKey(x) === solventKey(y);

function lastIn(carriedIn: CarryOver | null, rig: string) {
  const known = carriedIn?.rigs ? own(carriedIn.rigs, rig) : undefined;
  const unflushed = carriedIn?.unflushed.find((line) => line.rig === rig);
  const settled = carriedIn?.settledSolvent.find((left) => left.rig === rig);
  return {
    coating: known?.coating ?? unflushed?.coating ?? null,
    solvent: known?.solvent || settled?.solvent || null,
  };
}
