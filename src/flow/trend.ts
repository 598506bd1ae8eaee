import { strictestLimits } from '../facts/limits.ts';
import type { Day } from '../model/day.ts';
import type { Reading, Shift } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { dewPointC } from '../trade/climate.ts';
import { type Trend, type TrendPoint, trendOf } from '../trade/trend.ts';

/** How one figure moves at one place, against the strictest limit of today's coatings. */
export interface LimitTrend {
  readonly limit: 'margin' | 'rh-max';
  /** The last reading there. */
  readonly last: Reading;
  /** °C of margin at least, or per cent of humidity at most. */
  readonly allowed: number;
  readonly trend: Trend;
}

/** A trend that meets its limit in sight. */
export type Closing = LimitTrend & { readonly goneAt: Instant };

/** CO4: margin and humidity up to a reading, from the readings at its own place; empty when they are too few. */
export function trendsAt(shift: Shift, last: Reading): readonly LimitTrend[] {
  const series = shift.readings
    .filter((reading) => samePlace(reading, last) && reading.at <= last.at)
    .toSorted((x, y) => x.at - y.at);
  const { marginMinC, rhMaxPct } = dayLimits(shift.day);
  const points = (figure: (reading: Reading) => number): readonly TrendPoint[] =>
    series.map((reading) => ({ at: reading.at, value: figure(reading) }));
  const margin = trendOf(
    points(({ airC, rhPct, steelC }) => steelC - dewPointC(airC, rhPct)),
    { least: marginMinC },
  );
  const humidity = trendOf(
    points(({ rhPct }) => rhPct),
    { most: rhMaxPct },
  );
  return [
    ...(margin ? [{ limit: 'margin', last, allowed: marginMinC, trend: margin } as const] : []),
    ...(humidity ? [{ limit: 'rh-max', last, allowed: rhMaxPct, trend: humidity } as const] : []),
  ];
}

/** The trend that meets its limit first after this reading; null when none does in sight. */
export function closingAt(shift: Shift, last: Reading): Closing | null {
  return firstOf(trendsAt(shift, last).flatMap(inSight));
}

/** CO5: for each place its last reading and what runs out first there. A sunny spot measured later clears no shady one. */
export function closings(shift: Shift): readonly Closing[] {
  const newestFirst = shift.readings.toReversed();
  const lasts = newestFirst.filter(
    (reading, i) => newestFirst.findIndex((other) => samePlace(reading, other)) === i,
  );
  return lasts.flatMap((last) => closingAt(shift, last) ?? []);
}

function inSight(found: LimitTrend): readonly Closing[] {
  const { goneAt } = found.trend;
  return goneAt === null ? [] : [{ ...found, goneAt }];
}

function firstOf(found: readonly Closing[]): Closing | null {
  return found.reduce<Closing | null>(
    (first, one) => (first && first.goneAt <= one.goneAt ? first : one),
    null,
  );
}

/** Two spots are two climates. Spelling apart, the same words are the same place; no words are one place too. */
function samePlace(one: Reading, other: Reading): boolean {
  const plain = (place: string) => place.trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one.place) === plain(other.place);
}

function dayLimits(day: Day): { readonly marginMinC: number; readonly rhMaxPct: number } {
  const each = day.entry.jobs.map(({ coating }) => strictestLimits(day, day.coatings[coating] ?? null));
  return {
    marginMinC: Math.max(...each.map(({ marginMinC }) => marginMinC)),
    rhMaxPct: Math.min(...each.map(({ rhMaxPct }) => rhMaxPct)),
  };
}
