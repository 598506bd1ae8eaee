import type { Day } from '../model/day.ts';
import { HOUR, type Instant, nextInstantOf } from '../model/time.ts';

/** Air and steel expected from a moment on, until the next line. */
export interface ExpectedWeather {
  readonly at: Instant;
  readonly airC: number;
  readonly rhPct: number;
  readonly steelC: number;
}

/** A time of day means the one from this long before the start on, so that the evening of a long day is its own. */
const BEFORE = 6 * HOUR;

/** How far beyond the shift the forecast is looked at, for starting earlier or ending later. */
export const BEYOND = 4 * HOUR;

/**
 * The forecast on the site's clock, oldest first; before its first line, and without one, the weather as posted. Steel
 * that nobody gave counts as warm as the air, humidity that nobody gave as posted.
 */
export function expectedWeather(day: Day): readonly ExpectedWeather[] {
  const before = known.get(day);
  if (before) return before;
  const weather = read(day);
  known.set(day, weather);
  return weather;
}

/** Every coat asks for it several times, and a time zone takes a while to look up. */
const known = new WeakMap<Day, readonly ExpectedWeather[]>();

function read(day: Day): readonly ExpectedWeather[] {
  const { weather, forecast } = day.entry;
  const posted = {
    at: day.startsAt - BEYOND,
    airC: weather.airC,
    rhPct: weather.rhPct,
    steelC: weather.steelC ?? weather.airC,
  };
  const lines = forecast
    .map(({ at, airC, rhPct, steelC }) => ({
      at: nextInstantOf(day.startsAt - BEFORE, at, day.site.timeZone),
      airC,
      rhPct: rhPct ?? weather.rhPct,
      steelC: steelC ?? airC,
    }))
    .sort((x, y) => x.at - y.at);
  const before = lines.filter(({ at }) => at <= posted.at).at(-1);
  const later = lines.filter(({ at }) => at > posted.at);
  return [before ? { ...before, at: posted.at } : posted, ...later];
}
