import type { TemperatureStep } from '../dose.ts';
import { MS_PER_MINUTE } from './spans.ts';
import type { PlanInput, Span } from './types.ts';

/** In order of time; of two steps at one moment the warmer one. */
export function inOrder(steps: readonly TemperatureStep[]): readonly TemperatureStep[] {
  return [...steps]
    .sort((x, y) => x.at - y.at || x.c - y.c)
    .filter((step, i, sorted) => sorted[i + 1]?.at !== step.at);
}

/** What is expected at a moment, of steps in order: the last at or before it; before the first step, the first. */
export function expectedC(steps: readonly TemperatureStep[], at: number): number {
  let c = steps[0]?.c ?? Number.NaN;
  for (const step of steps) {
    if (step.at > at) break;
    c = step.c;
  }
  return c;
}

/** The coldest expected between two moments, both included. */
export function coldestC(steps: readonly TemperatureStep[], from: number, to: number): number {
  const met = steps.filter(({ at }) => at > from && at <= to).map(({ c }) => c);
  return Math.min(expectedC(steps, from), ...met);
}

/** A warming hose is followed in steps of this length, each counted as warm as at its end. */
const STEP_MS = 5 * MS_PER_MINUTE;

/** Paint mixed at a moment: as warm as the pot, and while it stands in the hose as warm as the hose when that is warmer. */
export function temperaturesOf(
  input: PlanInput,
  mixedAt: number,
  standing: readonly Span[],
): readonly TemperatureStep[] {
  const edges = [mixedAt];
  for (const { at } of input.paintC) if (at > mixedAt) edges.push(at);
  for (const { from, to } of standing) {
    for (let at = from; at < to; at += STEP_MS) edges.push(at);
    edges.push(to);
  }
  return [...new Set(edges)]
    .filter((at) => at >= mixedAt)
    .sort((x, y) => x - y)
    .map((at) => {
      const pot = expectedC(input.paintC, at);
      const stands = standing.find(({ from, to }) => from <= at && at < to);
      return { at, c: stands ? Math.max(pot, warmedC(input, stands.from, at + STEP_MS)) : pot };
    });
}

function warmedC(input: PlanInput, since: number, at: number): number {
  const { towardsC, timeConstantMinutes } = input.hose;
  const start = expectedC(input.paintC, since);
  const minutes = (at - since) / MS_PER_MINUTE;
  return start + (expectedC(towardsC, at) - start) * -Math.expm1(-minutes / timeConstantMinutes);
}
