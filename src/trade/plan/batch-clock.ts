import { type ClockTimes, clockTimes } from '../dose.ts';
import type { PotLifePoint } from '../pot-life.ts';
import { temperaturesOf } from './expected-temperature.ts';
import type { PlanInput, PlanJob, Span } from './types.ts';

/** One plan asks for the same clock again and again, for every size of batch. What it is asked with does not change. */
const known = new WeakMap<PlanInput, Map<string, ClockTimes>>();

/** The clock of one batch by the rules of every other clock (`clockTimes`). null for a one-pack. */
export function batchClock(
  input: PlanInput,
  job: PlanJob,
  mixedAt: number,
  standing: readonly Span[],
): ClockTimes | null {
  if (!job.potLife) return null;
  const clocks = known.get(input) ?? new Map<string, ClockTimes>();
  known.set(input, clocks);
  const key = [job.coating, mixedAt, ...standing.flatMap(({ from, to }) => [from, to])].join(' ');
  const clock = clocks.get(key) ?? worked(input, job.potLife, mixedAt, standing);
  clocks.set(key, clock);
  return clock;
}

function worked(
  input: PlanInput,
  points: readonly PotLifePoint[],
  mixedAt: number,
  standing: readonly Span[],
): ClockTimes {
  return clockTimes({
    points,
    history: temperaturesOf(input, mixedAt, standing),
    mixedAt,
    reserveFraction: input.reserveFraction,
    flushMinutes: input.flushMinutes,
  });
}
