import { batchClock } from './batch-clock.ts';
import { stopsOf } from './place-batch.ts';
import { joined, stopsBetween } from './spans.ts';
import type { PlanBatch, PlanFlush, PlanInput, Span } from './types.ts';

/** Each batch with the moment its last paint leaves the line, and with the clock that its standing in the hose gives it. */
export function settled(
  input: PlanInput,
  batches: readonly PlanBatch[],
  flushes: readonly PlanFlush[],
): readonly PlanBatch[] {
  const sprayed = joined(batches.flatMap((batch) => sprayedSpans(input, batch)));
  return batches.map((batch, index) => {
    const renewals = batches.slice(index + 1).flatMap(({ renewedAt }) => renewedAt ?? []);
    const flush = flushes.find(({ from }) => from >= batch.sprayTo);
    const outAt = Math.min(...renewals, flush?.to ?? Number.POSITIVE_INFINITY);
    const job = input.jobs[batch.job];
    const end = Math.min(outAt, flush?.from ?? outAt);
    const stood = without(batch.sprayTo, end, sprayed)[0];
    const pauses = without(batch.sprayFrom, batch.sprayTo, sprayed);
    const standing = stood ? [...pauses, { from: stood.from, to: end }] : pauses;
    const clock = job && batchClock(input, job, batch.mixFrom, standing);
    if (!clock) return { ...batch, outAt };
    const { useBy, startFlushBy, deadAt } = clock;
    return { ...batch, outAt, useBy, startFlushBy, deadAt };
  });
}

/** When the gun is open for a batch. */
export function sprayedSpans(input: PlanInput, batch: PlanBatch): readonly Span[] {
  const job = input.jobs[batch.job];
  if (!job) return [];
  return without(
    batch.sprayFrom,
    batch.sprayTo,
    stopsBetween(batch.sprayFrom, batch.sprayTo, stopsOf(input, job)),
  );
}

/** What is left between two moments when the joined spans are taken out. */
function without(from: number, to: number, spans: readonly Span[]): readonly Span[] {
  const out: Span[] = [];
  let at = from;
  for (const span of stopsBetween(from, to, spans)) {
    if (span.from > at) out.push({ from: at, to: span.from });
    at = span.to;
  }
  return at < to ? [...out, { from: at, to }] : out;
}
