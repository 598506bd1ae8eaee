import { splitMix } from '../mix.ts';
import { batchClock } from './batch-clock.ts';
import { mixTime } from './mix-time.ts';
import type { Size } from './sizes.ts';
import { firstSlot, joined, MS_PER_MINUTE, stopsBetween, workedUntil } from './spans.ts';
import type { PlanBatch, PlanInput, PlanJob, Span } from './types.ts';

/** The oldest paint in the line, and when it has stood there. */
export interface LinePaint {
  readonly job: number;
  readonly mixedAt: number;
  /** Breaks in its own spraying. */
  readonly pauses: readonly Span[];
  /** When the gun first stood still after its spraying; from then on it counts as warm until it is out of the line. */
  readonly stoodSince: number | null;
}

/** How far the rig is: who is free from when, and what is in the line. */
export interface RigState {
  readonly gunFree: number;
  readonly mixerFree: number;
  readonly line: LinePaint | null;
}

export interface Placed {
  readonly batch: PlanBatch;
  readonly after: RigState;
  /** True when a break or a closed time lies in its spraying. */
  readonly interrupted: boolean;
}

/** The times in which a job is not sprayed. */
export function stopsOf(input: PlanInput, job: PlanJob): readonly Span[] {
  return joined([...input.breaks, ...job.closed]);
}

/** The times in which nothing is mixed for a job: breaks, and weather it waits for, because a forecast can be wrong. */
function mixStopsOf(input: PlanInput, job: PlanJob): readonly Span[] {
  return joined([...input.breaks, ...job.closed.filter(({ why }) => why === 'weather')]);
}

/**
 * One batch of a size, sprayed at the earliest from `earliest` on; null unless all of this holds: it is mixed outside
 * breaks, has stood, is through the gun by its use-by, pushes older paint out of the line before that one's use-by, and a
 * full flush after it is over by the use-by of the oldest paint then in the line and by the end.
 */
export function placeBatch(
  input: PlanInput,
  jobIndex: number,
  size: Size,
  state: RigState,
  earliest: number,
): Placed | null {
  const job = input.jobs[jobIndex];
  if (!job) return null;
  const breaks = joined(input.breaks);
  const stops = stopsOf(input, job);
  const times = mixTime(input, job, earliest, state.mixerFree, mixStopsOf(input, job), stops);
  if (!times) return null;
  const { mixFrom, sprayFrom } = times;

  const inPot = size.litres * (1 + job.thinnerPct / 100);
  const minutes = Math.max(1, Math.ceil(inPot / job.sprayLPerMin - 1e-9));
  const sprayTo = workedUntil(sprayFrom, minutes, stops);
  const flush = firstSlot(sprayTo, input.flushMinutes, breaks, input.endsAt);
  if (!flush) return null;
  const pauses = stopsBetween(sprayFrom, sprayTo, stops);

  const clock = batchClock(input, job, mixFrom, pauses);
  if (clock && sprayTo > clock.useBy) return null;
  const renews = inPot >= input.renewL;
  const renewedAt = renews
    ? workedUntil(sprayFrom, Math.ceil((minutes * input.renewL) / inPot), stops)
    : null;
  const old = state.line && stoodOn(state.line, state.gunFree, sprayFrom, pauses);
  if (old && renewedAt !== null && renewedAt > useByOf(input, old, renewedAt)) return null;
  const own: LinePaint = { job: jobIndex, mixedAt: mixFrom, pauses, stoodSince: null };
  const line = old && !renews ? old : own;
  // A flush moves the line: from its start on it stands no more.
  const waiting = stoodOn(line, sprayTo, flush.from, []);
  if (flush.to > useByOf(input, waiting, flush.from)) return null;

  const parts = job.ratio
    ? splitMix({
        ratioA: job.ratio.a,
        ratioB: job.ratio.b,
        mixedLitres: size.litres,
        thinnerPct: job.thinnerPct,
      })
    : { aL: size.litres, bL: 0, thinnerL: (size.litres * job.thinnerPct) / 100 };
  return {
    interrupted: pauses.length > 0,
    after: { gunFree: sprayTo, mixerFree: times.mixTo, line },
    batch: {
      job: jobIndex,
      ...times,
      sprayTo,
      renewedAt: old ? renewedAt : sprayFrom,
      outAt: flush.to,
      useBy: clock?.useBy ?? null,
      startFlushBy: clock?.startFlushBy ?? null,
      deadAt: clock?.deadAt ?? null,
      litres: size.litres,
      aL: parts.aL,
      bL: parts.bL,
      thinnerL: parts.thinnerL,
      kits: size.kits,
      measuredL: size.measuredL,
    },
  };
}

function stoodOn(line: LinePaint, gunFree: number, goesOn: number, pauses: readonly Span[]): LinePaint {
  const since = goesOn > gunFree ? gunFree : pauses[0]?.from;
  return { ...line, stoodSince: line.stoodSince ?? since ?? null };
}

/** When paint that leaves the line at `until` must have left it; a one-pack has no such time. */
function useByOf(
  input: PlanInput,
  { job: index, mixedAt, pauses, stoodSince }: LinePaint,
  until: number,
): number {
  const job = input.jobs[index];
  const standing = stoodSince === null ? pauses : [...pauses, { from: stoodSince, to: until }];
  return (job && batchClock(input, job, mixedAt, standing)?.useBy) ?? Number.POSITIVE_INFINITY;
}

/** The flush that ends a line's paint: the first slot once the gun is free. Null when the shift has no room for it. */
export function flushSlot(input: PlanInput, from: number): Span | null {
  return firstSlot(from, input.flushMinutes, joined(input.breaks), input.endsAt);
}

/** Length of work a size needs at the gun, minutes. */
export const sprayMinutes = (job: PlanJob, litres: number): number =>
  Math.max(1, Math.ceil((litres * (1 + job.thinnerPct / 100)) / job.sprayLPerMin - 1e-9));

export const minutesOf = ({ from, to }: Span): number => (to - from) / MS_PER_MINUTE;
