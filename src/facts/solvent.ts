import type { CarryOver, Day } from '../model/day.ts';
import type { CoatingId, RigId } from '../model/id.ts';
import type { Rig } from '../model/rig.ts';
import { solventForDay } from '../trade/flush.ts';
import { flushPlanOf } from './flush-plan.ts';
import { dayPlan, type RigDay } from './plan.ts';
import { tenthDown, wholeUp } from './round.ts';
import { solventKey, solventUse } from './settled-solvent.ts';
import { usedRigs } from './used.ts';

/** Solvent to bring to one rig for the day. */
export interface SolventNeed {
  readonly rig: RigId;
  readonly name: string;
  readonly solvent: string;
  /** Full flushes counted: those of the plan, at least one for each coating at its end. */
  readonly flushes: number;
  /** One full flush, first and second, L. */
  readonly eachL: number;
  /** Settled solvent standing ready for this rig, sludge included, L; 0 where it may not be used. */
  readonly standingL: number;
  /** Of it, clear and used for first flushes, L. */
  readonly settledL: number;
  /** Clean, whole litres. */
  readonly cleanL: number;
}

/** What each rig of the day needs, rig by rig and solvent by solvent. A rig nobody knows needs an unknown amount and is left out. */
export function solventNeeds(day: Day, carriedIn: CarryOver | null): readonly SolventNeed[] {
  const plans = dayPlan(day, carriedIn);
  return usedRigs(day).flatMap(({ id, name, rig, jobs }) => {
    if (!rig) return [];
    const plan = plans.find((one) => one.rig === id);
    const coatings = [...new Set(jobs.map((job) => job.coating))].sort();
    return bySolvent(day, coatings).map(([solvent, used]) =>
      needOf(day, carriedIn, { id, name, rig }, solvent, flushesOf(plan, used)),
    );
  });
}

function needOf(
  day: Day,
  carriedIn: CarryOver | null,
  { id, name, rig }: { readonly id: RigId; readonly name: string; readonly rig: Rig },
  solvent: string,
  flushes: number,
): SolventNeed {
  const plan = flushPlanOf(day, rig);
  const standingL = (carriedIn?.settledSolvent ?? [])
    .filter((left) => left.rig === id && solventUse(day, id, left.solvent) === 'rinse')
    .reduce((sum, { litres }) => sum + litres, 0);
  const { primaryL, secondaryL } = plan;
  const found = solventForDay({ primaryL, secondaryL, flushes, settledL: Math.min(1000, standingL) });
  // Rounded down, what is settled leaves a little more clean to bring, never less.
  const settledL = tenthDown(found.settledL);
  const cleanL = wholeUp(found.cleanL + found.settledL - settledL);
  return { rig: id, name, solvent, flushes, eachL: plan.solventL, standingL, settledL, cleanL };
}

/**
 * Flushes of the plan while one of these coatings is in the line: before a break it cannot wait out, before another
 * coating, at the end. A rig that cannot be planned is flushed once for each coating at least.
 */
function flushesOf(plan: RigDay | undefined, coatings: readonly CoatingId[]): number {
  if (!plan?.plan) return coatings.length;
  const planned = plan.plan.flushes.filter(({ job }) => coatings.includes(plan.jobs[job]?.job.coating ?? ''));
  return Math.min(24, Math.max(coatings.length, planned.length));
}

/** Coatings by the name of their flush solvent; one spelling for names that differ in capitals or spaces only. */
function bySolvent(
  day: Day,
  coatings: readonly CoatingId[],
): readonly (readonly [string, readonly CoatingId[]])[] {
  const groups = new Map<string, { readonly name: string; readonly ids: CoatingId[] }>();
  for (const id of coatings) {
    const name = day.coatings[id]?.flushSolvent.trim();
    if (name === undefined) continue;
    const group = groups.get(solventKey(name));
    if (group) group.ids.push(id);
    else groups.set(solventKey(name), { name, ids: [id] });
  }
  return [...groups.values()].map(({ name, ids }) => [name, ids]);
}
