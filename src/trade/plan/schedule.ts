import { flushSlot, type Placed, placeBatch, type RigState, sprayMinutes, stopsOf } from './place-batch.ts';
import { settled } from './settle.ts';
import { CRUMB_L, sizesFor, smallestSize } from './sizes.ts';
import { joined, MS_PER_MINUTE, overlaps, workedUntil } from './spans.ts';
import type { FlushWhy, JobDone, PlanBatch, PlanFlush, PlanInput, Schedule } from './types.ts';

/** More batches than any crew mixes in a day: the end of a plan whose figures make no sense. */
const MOST_BATCHES = 200;

interface Next {
  readonly placed: Placed;
  readonly flush: PlanFlush | null;
}

/** A rig's batches and flushes, job after job, each batch the earliest and then the largest that can be flushed in time. */
export function scheduleOf(input: PlanInput): Schedule {
  const batches: PlanBatch[] = [];
  const flushes: PlanFlush[] = [];
  const jobs: JobDone[] = [];
  let state: RigState = { gunFree: input.startsAt, mixerFree: input.startsAt, line: null };

  input.jobs.forEach((job, index) => {
    const mine: PlanBatch[] = [];
    let left = job.litres;
    const inside = state.line && input.jobs[state.line.job];
    let begun = state;
    const cleaned: PlanFlush[] = [];
    if (inside && inside.coating !== job.coating) {
      const flush = flushOf(input, state, 'coating-change');
      if (flush) {
        cleaned.push(flush);
        begun = { ...state, gunFree: flush.to, line: null };
      }
    }
    const setUp = workedUntil(begun.gunFree, input.setupMinutes, joined(input.breaks));
    while (left > CRUMB_L && batches.length + mine.length < MOST_BATCHES) {
      const from = mine.length === 0 ? setUp : begun.gunFree;
      const next = nextBatch(input, index, left, begun, from);
      if (!next) break;
      if (next.flush) cleaned.push(next.flush);
      mine.push(next.placed.batch);
      begun = next.placed.after;
      left -= next.placed.batch.litres;
    }
    const litres = mine.reduce((sum, batch) => sum + batch.litres, 0);
    const complete = left <= CRUMB_L;
    jobs.push({
      litres,
      complete,
      coveredM2: complete ? job.areaM2 : (job.areaM2 * litres) / job.litres,
      finishedAt: mine.at(-1)?.sprayTo ?? null,
    });
    // A flush for a coating of which nothing is then sprayed is the last one of the day: it is made below.
    if (mine.length === 0) return;
    batches.push(...mine);
    flushes.push(...cleaned);
    state = begun;
  });
  const last = flushOf(input, state, 'end');
  if (last) flushes.push(last);
  return { batches: settled(input, batches, flushes), flushes, jobs };
}

/** The next batch onto what is in the line; where that cannot be in time, after a flush. */
function nextBatch(
  input: PlanInput,
  index: number,
  left: number,
  state: RigState,
  from: number,
): Next | null {
  const onTop = firstThatFits(input, index, left, state, from);
  if (onTop) return { placed: onTop, flush: null };
  const flush = flushOf(input, state, 'pot-life');
  if (!flush) return null;
  const clean: RigState = { ...state, gunFree: flush.to, line: null };
  const placed = firstThatFits(input, index, left, clean, Math.max(from, flush.to));
  if (!placed) return null;
  const over = { from: state.gunFree, to: placed.batch.sprayFrom };
  const why: FlushWhy = input.breaks.some((one) => overlaps(one, over)) ? 'break' : 'pot-life';
  return { placed, flush: { ...flush, why } };
}

/** The earliest start at which some size fits, and there the largest. */
function firstThatFits(
  input: PlanInput,
  index: number,
  left: number,
  state: RigState,
  from: number,
): Placed | null {
  const job = input.jobs[index];
  if (!job) return null;
  const stops = stopsOf(input, job);
  const starts = [from, ...stops.map(({ to }) => to).filter((to) => to > from && to < input.endsAt)];
  const sizes = sizesFor(job, left, input);
  for (const start of starts) {
    const across = job.kitLitres !== null && longerThanStretch(input, index, left, start);
    for (const size of sizes) {
      const placed = placeBatch(input, index, size, state, start);
      if (placed && (across || !placed.interrupted)) return placed;
    }
  }
  return null;
}

/**
 * Whether even the smallest batch takes longer than there is between two stops. Only then is one sprayed over a break;
 * any other is kept back so that the pot is empty when the crew goes.
 */
function longerThanStretch(input: PlanInput, index: number, left: number, start: number): boolean {
  const job = input.jobs[index];
  if (!job) return false;
  const stops = stopsOf(input, job);
  const from = Math.max(input.startsAt, ...stops.map(({ to }) => to).filter((to) => to <= start));
  const to = Math.min(input.endsAt, ...stops.map((stop) => stop.from).filter((at) => at > start));
  return sprayMinutes(job, smallestSize(job, left).litres) * MS_PER_MINUTE > to - from;
}

function flushOf(input: PlanInput, state: RigState, why: FlushWhy): PlanFlush | null {
  if (!state.line) return null;
  const slot = flushSlot(input, state.gunFree);
  const { primaryL, secondaryL } = input;
  return slot && { ...slot, job: state.line.job, why, primaryL, secondaryL };
}
