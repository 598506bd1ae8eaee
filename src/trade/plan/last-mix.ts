import { inductionMinutes } from '../induction.ts';
import { expectedC } from './expected-temperature.ts';
import { flushSlot, placeBatch, sprayMinutes } from './place-batch.ts';
import { smallestSize } from './sizes.ts';
import { MS_PER_MINUTE } from './spans.ts';
import type { PlanBatch, PlanInput } from './types.ts';

/** Until when a batch can be begun so that its pot is empty when the crew goes. */
export interface LastMix {
  readonly before: 'break' | 'end';
  /** When the break or the end of the shift comes. */
  readonly at: number;
  readonly job: number;
  /** The batch it is worked out for: one kit, or what there is. */
  readonly litres: number;
  /** Latest start of mixing; null: no such batch fits before it. */
  readonly mixBy: number | null;
}

/** How finely an earlier moment is looked for when the latest one does not do, minutes. */
const STEP = 5;

/** One line for each break and the end of the shift, for the coating in hand then. */
export function lastMixes(input: PlanInput, batches: readonly PlanBatch[]): readonly LastMix[] {
  const stops = [
    ...input.breaks.map(({ from }) => ({ before: 'break' as const, at: from })),
    { before: 'end' as const, at: input.endsAt },
  ].sort((x, y) => x.at - y.at);
  return stops.flatMap(({ before, at }) => {
    const index = batches.findLast(({ mixFrom }) => mixFrom < at)?.job ?? 0;
    const job = input.jobs[index];
    if (!job) return [];
    const { litres } = smallestSize(job, job.litres);
    return [{ before, at, job: index, litres, mixBy: latestMix(input, index, before, at) }];
  });
}

function latestMix(input: PlanInput, index: number, before: 'break' | 'end', at: number): number | null {
  const job = input.jobs[index];
  if (!job) return null;
  const size = smallestSize(job, job.litres);
  const earliest = Math.max(input.startsAt, ...input.breaks.map(({ to }) => to).filter((to) => to <= at));
  const stand =
    job.induction.length === 0
      ? 0
      : Math.ceil(inductionMinutes(job.induction, expectedC(input.coldC, at)).minutes);
  const tail = (input.mixMinutes + stand + sprayMinutes(job, size.litres)) * MS_PER_MINUTE;
  const first = at - tail - (before === 'end' ? Math.ceil(input.flushMinutes) * MS_PER_MINUTE : 0);
  for (let mixFrom = first; mixFrom >= earliest; mixFrom -= STEP * MS_PER_MINUTE) {
    const sprayFrom = mixFrom + (input.mixMinutes + stand) * MS_PER_MINUTE;
    const state = { gunFree: earliest, mixerFree: mixFrom, line: null };
    const placed = placeBatch(input, index, size, state, sprayFrom);
    if (!placed || placed.interrupted || placed.batch.mixFrom !== mixFrom) continue;
    const done = before === 'break' ? placed.batch.sprayTo : flushSlot(input, placed.batch.sprayTo)?.to;
    if (done !== undefined && done <= at) return mixFrom;
  }
  return null;
}
