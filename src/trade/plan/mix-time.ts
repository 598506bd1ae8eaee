import { inductionMinutes } from '../induction.ts';
import { coldestC } from './expected-temperature.ts';
import { firstClear, MS_PER_MINUTE, overlaps } from './spans.ts';
import type { PlanInput, PlanJob, Span } from './types.ts';

/** When a batch is mixed, when it has stood long enough, and when its spraying begins. */
export interface MixTime {
  readonly mixFrom: number;
  readonly mixTo: number;
  readonly ready: number;
  readonly sprayFrom: number;
  readonly standsLonger: boolean;
}

/** The latest possible mixing is looked for by going forward from the earliest; a day has fewer turns than this. */
const MOST_TURNS = 60;

/**
 * Mixing as late as can be for spraying at or after `earliest`, not before `mixerFree` and never in a `mixStops`. Over
 * one a batch stands only when that is mostly its own standing time: paint is not mixed to be left. null: never today.
 */
export function mixTime(
  input: PlanInput,
  job: PlanJob,
  earliest: number,
  mixerFree: number,
  mixStops: readonly Span[],
  stops: readonly Span[],
): MixTime | null {
  const mixMs = input.mixMinutes * MS_PER_MINUTE;
  const floor = Math.max(mixerFree, input.startsAt);
  let sprayFrom = firstClear(earliest, stops);
  for (let turn = 0; turn < MOST_TURNS && sprayFrom < input.endsAt; turn += 1) {
    const stand = standingTime(input, job, sprayFrom - mixMs, sprayFrom);
    const latest = Math.max(sprayFrom - mixMs - stand.ms, floor);
    const mixFrom = clearOfStops(latest, mixMs, floor, sprayFrom, stand.ms, mixStops);
    const found = standingTime(input, job, mixFrom, mixFrom + mixMs + stand.ms);
    const ready = mixFrom + mixMs + found.ms;
    if (ready <= sprayFrom)
      return { mixFrom, mixTo: mixFrom + mixMs, ready, sprayFrom, standsLonger: found.longer };
    sprayFrom = firstClear(ready, stops);
  }
  return null;
}

/** Where the mixing runs into a stop: just before it if the batch then hardly waits, else after it. */
function clearOfStops(
  mixFrom: number,
  mixMs: number,
  floor: number,
  sprayFrom: number,
  standMs: number,
  mixStops: readonly Span[],
): number {
  const inTheWay = (from: number) => mixStops.find((one) => overlaps(one, { from, to: from + mixMs }));
  let at = mixFrom;
  for (let met = inTheWay(at); met; met = inTheWay(at)) {
    const before = met.from - mixMs;
    const waits = sprayFrom - met.from - standMs;
    if (before >= floor && waits <= standMs && !inTheWay(before)) return before;
    at = met.to;
  }
  return at;
}

/** Whole minutes, by the coldest it may be in between: cold paint stands longer. */
function standingTime(input: PlanInput, job: PlanJob, from: number, to: number) {
  if (job.induction.length === 0) return { ms: 0, longer: false };
  const { minutes, belowTable } = inductionMinutes(
    job.induction,
    coldestC(input.coldC, Math.min(from, to), to),
  );
  return { ms: Math.ceil(minutes - 1e-9) * MS_PER_MINUTE, longer: belowTable };
}
