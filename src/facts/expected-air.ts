import type { Day } from '../model/day.ts';
import { HOUR, nextInstantOf } from '../model/time.ts';
import { type FeltHeat, feltHeat } from '../trade/heat.ts';

/** Air people will work in. */
export interface ExpectedAir {
  readonly airC: number;
  readonly rhPct: number;
}

/**
 * The weather as posted, and every line of the forecast that holds for some part of the shift. A line without humidity
 * has that of the posted weather. Never empty.
 */
export function expectedAir({
  entry,
  site,
  startsAt,
  endsAt,
}: Day): readonly [ExpectedAir, ...ExpectedAir[]] {
  const { airC, rhPct } = entry.weather;
  const lines = entry.forecast
    .map((line) => ({ ...line, from: nextInstantOf(startsAt - 12 * HOUR, line.at, site.timeZone) }))
    .sort((x, y) => x.from - y.from);
  const during = lines.filter(({ from }, i) => from < endsAt && (lines[i + 1]?.from ?? endsAt) > startsAt);
  return [{ airC, rhPct }, ...during.map((line) => ({ airC: line.airC, rhPct: line.rhPct ?? rhPct }))];
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
