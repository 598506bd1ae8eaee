import { flushPlanOf } from '../facts/flush-plan.ts';
import { type FlushStep, flushSteps } from '../model/checks.ts';
import type { Day } from '../model/day.ts';
import type { RigId } from '../model/id.ts';
import type { Flush } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';

/** A pumped step that was confirmed sooner than the pump can have done it. Whole minutes. */
export interface TooSoon {
  /** From the step before, rounded down. */
  readonly minutes: number;
  /** What this pump needs for the planned solvent, rounded up: more than `minutes`. */
  readonly needs: number;
}

/** Minutes this pump needs to move the solvent of a step at its flushing speed; null for steps without pumping. */
function pumpingMinutes(day: Day, rigId: RigId, step: FlushStep): number | null {
  const rig = day.rigs[rigId];
  if (!rig) return null;
  const plan = flushPlanOf(day, rig);
  if (step === 'primary-flush') return plan.primaryMinutes - day.policy.flushFixedMinutes;
  if (step === 'secondary-flush') return plan.minutes - plan.primaryMinutes;
  return null;
}

/**
 * FL7: whether a step confirmed at `confirmedAt` comes sooner after the step before it than the pump can move its
 * solvent. Null when it does not, when the step pumps nothing, or when the step before has not been answered.
 */
export function tooSoon(
  day: Day,
  rig: RigId,
  flush: Flush,
  step: FlushStep,
  confirmedAt: Instant,
): TooSoon | null {
  const needs = pumpingMinutes(day, rig, step);
  const previous = flushSteps[flushSteps.indexOf(step) - 1];
  const before = previous && flush.steps[previous];
  if (needs === null || !before) return null;
  const took = (confirmedAt - before.at) / MINUTE;
  return took < needs ? { minutes: Math.max(0, Math.floor(took)), needs: Math.ceil(needs) } : null;
}
