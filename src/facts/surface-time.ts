import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { addDays, dateAt, HOUR, type Instant, instantOf, MINUTE, nextInstantOf } from '../model/time.ts';
import { saturationHPa } from '../trade/climate.ts';
import { lineAt } from './expected-air.ts';
import { type ExpectedWeather, expectedWeather } from './forecast.ts';

/**
 * Air at the steel damper than this halves the time, per cent. Clean steel rusts fast above a critical humidity between
 * 60 and 80 % (Vernon, Transactions of the Faraday Society, 1930s, from memory); half the time is common practice, no source.
 */
const DAMP_PCT = 70;

/** How long bare steel of one job may still wait. `after`: the time written lies after the shift and can be no end. */
export type SurfaceTime =
  | { readonly kind: 'unknown' | 'after' }
  | {
      readonly kind: 'known';
      readonly preparedAt: Instant;
      /** The whole area has its first coat by then; the sheet or the specification may say earlier. */
      readonly coatedBy: Instant;
      /** The dampest air expected in that time where it halves it; `night`: nobody knows how damp the night is; null: dry. */
      readonly damp: Damp | 'night' | null;
    };

export interface Damp {
  /** Relative humidity at the steel, per cent, and that of the air it comes from. */
  readonly pct: number;
  readonly airPct: number;
}

/** When preparation of this job's steel ended. A time of day without a date is the one nearest to the start of the shift. */
function preparedInstant(day: Day, written: string): Instant {
  const zone = day.site.timeZone;
  const [date, time] = written.split(' ');
  return date !== undefined && time !== undefined
    ? instantOf(date, time, zone)
    : nextInstantOf(day.startsAt - 12 * HOUR, written, zone);
}

export function bareSteelTime(day: Day, job: Job): SurfaceTime {
  if (job.preparedAt === undefined) return { kind: 'unknown' };
  const preparedAt = preparedInstant(day, job.preparedAt);
  if (preparedAt >= day.endsAt) return { kind: 'after' };
  const whole = day.policy.surfaceHours * HOUR;
  const dampest = dampestOf(day, preparedAt, preparedAt + whole);
  const night = untoldNight(day, preparedAt, preparedAt + whole) ? 'night' : null;
  const damp = dampest.pct > DAMP_PCT ? dampest : night;
  // To the minute, downward: the time is never shown longer than it is.
  const coatedBy = Math.floor((preparedAt + (damp ? whole / 2 : whole)) / MINUTE) * MINUTE;
  return { kind: 'known', preparedAt, coatedBy, damp };
}

/** The dampest the air at the steel is expected from `from` to `to`. Before the first line of the forecast its first line holds. */
function dampestOf(day: Day, from: Instant, to: Instant): Damp {
  const { weather } = day.entry;
  const steps = expectedWeather(day);
  const during = steps.filter(({ at }, i) => {
    const ends = steps[i + 1]?.at ?? Number.POSITIVE_INFINITY;
    return (i === 0 || at < to) && ends > from;
  });
  return during
    .map((step) => ({ pct: atSteelPct(step), airPct: step.rhPct }))
    .reduce((one, other) => (other.pct > one.pct ? other : one), {
      pct: weather.rhPct,
      airPct: weather.rhPct,
    });
}

/** Colder steel has damper air on it; steel that is warmer than the air gets no credit for it. */
function atSteelPct({ airC, steelC, rhPct }: ExpectedWeather): number {
  if (steelC >= airC) return rhPct;
  return Math.min(100, (rhPct * saturationHPa(airC)) / saturationHPa(steelC));
}

/** Dark hours on the site's clock, in which steel cools and dew comes. Common practice, no source. */
const NIGHT_FROM = '20:00';
const NIGHT_TO = '06:00';

/**
 * Whether `from` to `to` runs into a night, outside the shift, for which no line of the forecast gives a humidity: what was
 * posted is expected of the shift and says nothing of the night beside it.
 */
function untoldNight(day: Day, from: Instant, to: Instant): boolean {
  const zone = day.site.timeZone;
  const told = expectedWeather(day).filter(({ at }) => lineAt(day, at)?.rhPct !== undefined);
  const last = dateAt(to, zone);
  for (let date = addDays(dateAt(from, zone), -1); date <= last; date = addDays(date, 1)) {
    const [dusk, dawn] = [instantOf(date, NIGHT_FROM, zone), instantOf(addDays(date, 1), NIGHT_TO, zone)];
    const [starts, ends] = [Math.max(from, dusk), Math.min(to, dawn)];
    const outside = starts < ends && (starts < day.startsAt || ends > day.endsAt);
    if (outside && !told.some(({ at }) => at >= dusk && at < dawn)) return true;
  }
  return false;
}
