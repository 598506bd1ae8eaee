import type { Day } from '../model/day.ts';
import { type FeltHeat, feltHeat } from '../trade/heat.ts';
import { expectedWeather } from './forecast.ts';

/** Air people will work in. */
export interface ExpectedAir {
  readonly airC: number;
  readonly rhPct: number;
}

/**
 * The weather as posted, and every line of the forecast that holds for some part of the shift. A line without humidity
 * has that of the posted weather. Never empty.
 */
export function expectedAir(day: Day): readonly [ExpectedAir, ...ExpectedAir[]] {
  const { airC, rhPct } = day.entry.weather;
  const steps = expectedWeather(day);
  const during = steps.filter(
    ({ at }, i) => at < day.endsAt && (steps[i + 1]?.at ?? day.endsAt) > day.startsAt,
  );
  return [{ airC, rhPct }, ...during.map((step) => ({ airC: step.airC, rhPct: step.rhPct }))];
}

/** The part of the shift that is hottest for people, in shade. */
export function hottestAir(day: Day): ExpectedAir & { readonly felt: FeltHeat } {
  return expectedAir(day)
    .map((air) => ({ ...air, felt: feltHeat(air.airC, air.rhPct) }))
    .reduce((one, other) => (rank(other.felt) > rank(one.felt) ? other : one));
}

function rank(felt: FeltHeat): number {
  if (felt.kind === 'index') return felt.indexC;
  return felt.kind === 'cool' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
}
