import type { Mixed } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import type { TemperatureStep } from '../trade/dose.ts';

/** The temperature of mixed paint at a moment, °C; paint that was not mixed yet has none: minus infinity. */
export function tempAt({ mixedAt, history }: Pick<Mixed, 'mixedAt' | 'history'>, at: Instant): number {
  if (at < mixedAt) return Number.NEGATIVE_INFINITY;
  return history.findLast((step) => step.at <= at)?.c ?? history[0]?.c ?? Number.NEGATIVE_INFINITY;
}

/** One history with the warmest of several at every moment. */
export function warmest(
  moments: readonly Instant[],
  temperatures: readonly ((at: Instant) => number)[],
): readonly TemperatureStep[] {
  return [...new Set(moments)]
    .sort((x, y) => x - y)
    .map((at) => ({ at, c: Math.max(...temperatures.map((temperature) => temperature(at))) }));
}
