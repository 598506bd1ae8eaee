import { DateTime } from 'luxon';
import { z } from 'zod';
import type { Instant } from '../../src/model/time.ts';

/** A moment as the record writes it: ISO 8601 with milliseconds and the offset of the site's clock. */
export const stampSchema = z.iso.datetime({
  offset: true,
  precision: 3,
  error: 'write a moment with its offset, for example "2026-03-09T06:40:00.000+01:00"',
});
export type Stamp = string;

/** `at` on the clock of `zone` (IANA), to the millisecond, so that the hour an autumn change repeats stays clear. */
export function stamp(at: Instant, zone: string): Stamp {
  const text = DateTime.fromMillis(Math.floor(at), { zone }).toISO();
  if (text === null) throw new Error(`${at} in the zone "${zone}" is no moment in the calendar.`);
  return text;
}

export function maybeStamp(at: Instant | null, zone: string): Stamp | null {
  return at === null ? null : stamp(at, zone);
}

export function instantOfStamp(text: Stamp): Instant {
  return DateTime.fromISO(text).toMillis();
}

/** Seconds from one moment to another, to the tenth. */
export function secondsBetween(from: Instant, to: Instant): number {
  return Math.round((to - from) / 100) / 10;
}
