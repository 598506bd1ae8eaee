import type { Day } from '../model/day.ts';
import type { Forecast } from '../model/day-entry.ts';
import { clockTime, type Instant } from '../model/time.ts';
import { type FeltHeat, feltHeat } from '../trade/heat.ts';
import { expectedWeather } from './forecast.ts';

/** Air people will work in. */
export interface ExpectedAir {
  readonly airC: number;
  readonly rhPct: number;
}

/** Air and steel that are expected for some part of the shift. */
export interface ExpectedSpell extends ExpectedAir {
  /** No earlier than the start of the shift. */
  readonly from: Instant;
  readonly steelC: number;
  /** False: nobody gave it, so it is taken as warm as the air. */
  readonly steelGiven: boolean;
  /** The posted weather, no line of the forecast. */
  readonly posted: boolean;
}

/**
 * The weather as posted, and every line of the forecast that holds for some part of the shift and says something else. A
 * line without humidity has that of the posted weather. Never empty, in order of time.
 */
export function expectedAir(day: Day): readonly [ExpectedSpell, ...ExpectedSpell[]] {
  const { weather } = day.entry;
  const { airC, rhPct } = weather;
  const steelC = weather.steelC ?? airC;
  const steelGiven = weather.steelC !== undefined;
  const posted = { from: day.startsAt, airC, rhPct, steelC, steelGiven, posted: true };
  const steps = expectedWeather(day);
  const during = steps
    .filter(({ at }, i) => at < day.endsAt && (steps[i + 1]?.at ?? day.endsAt) > day.startsAt)
    .filter((step) => step.airC !== airC || step.rhPct !== rhPct || step.steelC !== steelC)
    .map(({ at, ...step }) => ({
      ...step,
      from: Math.max(at, day.startsAt),
      steelGiven: step.steelC !== step.airC || lineAt(day, at)?.steelC !== undefined,
      posted: false,
    }));
  return [posted, ...during];
}

/** The line of the forecast that begins at a moment, as it was written. */
export const lineAt = ({ entry, site }: Day, at: Instant): Forecast | undefined =>
  entry.forecast.find((line) => line.at === clockTime(at, site.timeZone));

/** °C. */
export const warmestAirC = (day: Day): number => Math.max(...expectedAir(day).map(({ airC }) => airC));
/** °C. */
export const coldestAirC = (day: Day): number => Math.min(...expectedAir(day).map(({ airC }) => airC));
/** Relative humidity, per cent. */
export const driestPct = (day: Day): number => Math.min(...expectedAir(day).map(({ rhPct }) => rhPct));
/** Air or steel, whichever gets warmer, °C. */
export const warmestSurfaceC = (day: Day): number =>
  Math.max(...expectedAir(day).map(({ airC, steelC }) => Math.max(airC, steelC)));

/** Where in the day entry a figure that is expected stands: the posted weather where it says as much, else the forecast. */
export function expectedField<Field extends 'airC' | 'rhPct' | 'steelC'>(
  { entry }: Day,
  field: Field,
  value: number,
): `${'weather' | 'forecast'}.${Field}` {
  return `${entry.weather[field] === value ? 'weather' : 'forecast'}.${field}`;
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
