import { isComplete } from './limits.ts';
import { scheduleOf } from './schedule.ts';
import { MS_PER_MINUTE } from './spans.ts';
import type { PlanInput, Schedule } from './types.ts';

/** A change of the day with which everything would be sprayed and flushed in time; `less` leaves something for another day. */
export type Change =
  | { readonly kind: 'earlier'; readonly minutes: number }
  | { readonly kind: 'later'; readonly minutes: number }
  /** Smaller batches, both parts measured out of the kits. */
  | { readonly kind: 'part-kits'; readonly litres: number }
  /** Times the present litres a minute through the gun. */
  | { readonly kind: 'faster'; readonly factor: number }
  | { readonly kind: 'rig' }
  | { readonly kind: 'less'; readonly leftM2: number };

const STEP_MINUTES = 15;
const MOST_MINUTES = 180;
const FACTORS = [1.1, 1.2, 1.3, 1.4, 1.5, 1.75, 2] as const;

/**
 * Changes that would do, the nearest first: measured part kits need nobody and nothing; an hour costs less than a new tip
 * or pump; one more rig costs most. What can be left for another day is said last and whenever something can be done at all.
 */
export function changesFor(input: PlanInput, plan: Schedule): readonly Change[] {
  if (isComplete(plan)) return [];
  const works = (changed: PlanInput) => isComplete(scheduleOf(changed));
  return [
    ...partKits(input),
    ...hours(input, works),
    ...faster(input, works),
    ...oneMoreRig(input, works),
    ...less(input, plan),
  ];
}

function partKits(input: PlanInput): readonly Change[] {
  const changed = { ...input, jobs: input.jobs.map((job) => ({ ...job, kitLitres: null })) };
  const plan = scheduleOf(changed);
  const largest = Math.max(0, ...plan.batches.map(({ litres }) => litres));
  return isComplete(plan) ? [{ kind: 'part-kits', litres: largest }] : [];
}

/** The smaller of an earlier start and a later end. */
function hours(input: PlanInput, works: (changed: PlanInput) => boolean): readonly Change[] {
  const steps = Array.from({ length: MOST_MINUTES / STEP_MINUTES }, (_, i) => (i + 1) * STEP_MINUTES);
  const ms = (minutes: number) => minutes * MS_PER_MINUTE;
  const earlier = least(steps, (minutes) => works({ ...input, startsAt: input.startsAt - ms(minutes) }));
  const later = least(steps, (minutes) => works({ ...input, endsAt: input.endsAt + ms(minutes) }));
  if (earlier !== null && earlier <= (later ?? earlier)) return [{ kind: 'earlier', minutes: earlier }];
  return later === null ? [] : [{ kind: 'later', minutes: later }];
}

function faster(input: PlanInput, works: (changed: PlanInput) => boolean): readonly Change[] {
  const factor = least(FACTORS, (times) =>
    works({
      ...input,
      jobs: input.jobs.map((job) => ({ ...job, sprayLPerMin: Math.min(100, job.sprayLPerMin * times) })),
    }),
  );
  return factor === null ? [] : [{ kind: 'faster', factor }];
}

/** The smallest of the steps that works, by halving: what works with little works with more. null: not even the largest. */
function least(steps: readonly number[], works: (step: number) => boolean): number | null {
  let from = 0;
  let to = steps.length - 1;
  const largest = steps[to];
  if (largest === undefined || !works(largest)) return null;
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (works(steps[middle] ?? largest)) to = middle;
    else from = middle + 1;
  }
  return steps[to] ?? null;
}

/** Half of each job on a second rig just like this one. */
function oneMoreRig(input: PlanInput, works: (changed: PlanInput) => boolean): readonly Change[] {
  const half = {
    ...input,
    jobs: input.jobs.map((job) => ({ ...job, litres: Math.max(0.1, job.litres / 2) })),
  };
  return works(half) ? [{ kind: 'rig' }] : [];
}

function less(input: PlanInput, plan: Schedule): readonly Change[] {
  const covered = plan.jobs.reduce((sum, { coveredM2 }) => sum + coveredM2, 0);
  const all = input.jobs.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  return covered > 0 ? [{ kind: 'less', leftM2: all - covered }] : [];
}
