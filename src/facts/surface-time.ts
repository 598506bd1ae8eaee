import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { HOUR, type Instant, instantOf, MINUTE, nextInstantOf } from '../model/time.ts';
import { saturationHPa } from '../trade/climate.ts';
import { type ExpectedWeather, expectedWeather } from './forecast.ts';

/**
 * Air at the steel damper than this halves the time, per cent. Clean steel rusts fast above a critical humidity between
 * 60 and 80 % (Vernon, Transactions of the Faraday Society, 1930s, from memory); half the time is common practice, no source.
 */
export const DAMP_PCT = 70;

/** How long bare steel of one job may still wait. `after`: the time written lies after the shift and can be no end. */
export type SurfaceTime =
  | { readonly kind: 'unknown' | 'after' }
  | {
      readonly kind: 'known';
      readonly preparedAt: Instant;
      /** The whole area has its first coat by then; the sheet or the specification may say earlier. */
      readonly coatedBy: Instant;
      /** Highest humidity expected at the steel in that time, per cent, when it halves it; null when it does not. */
      readonly dampPct: number | null;
    };

/** When preparation of this job's steel ended. A time of day without a date is the one nearest to the start of the shift. */
export function preparedInstant(day: Day, written: string): Instant {
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
  const dampest = dampestPct(day, preparedAt, preparedAt + whole);
  const damp = dampest > DAMP_PCT;
  // To the minute, downward: the time is never shown longer than it is.
  const coatedBy = Math.floor((preparedAt + (damp ? whole / 2 : whole)) / MINUTE) * MINUTE;
  return { kind: 'known', preparedAt, coatedBy, dampPct: damp ? dampest : null };
}

/** Highest relative humidity at the steel from `from` to `to`. Before the first line of the forecast its first line holds. */
function dampestPct(day: Day, from: Instant, to: Instant): number {
  const steps = expectedWeather(day);
  const during = steps.filter(({ at }, i) => {
    const ends = steps[i + 1]?.at ?? Number.POSITIVE_INFINITY;
    return (i === 0 || at < to) && ends > from;
  });
  return Math.max(day.entry.weather.rhPct, ...during.map(atSteelPct));
}

/** Colder steel has damper air on it; steel that is warmer than the air gets no credit for it. */
function atSteelPct({ airC, steelC, rhPct }: ExpectedWeather): number {
  if (steelC >= airC) return rhPct;
  return Math.min(100, (rhPct * saturationHPa(airC)) / saturationHPa(steelC));
}
