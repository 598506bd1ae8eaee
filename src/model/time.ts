import { DateTime } from 'luxon';
import { z } from 'zod';

/** Epoch milliseconds, UTC. The only form in which the core keeps an instant. */
export type Instant = number;

/** Wall-clock time of day on the site's clock, "HH:MM", 24 hours. */
export const wallTimeSchema = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a 24-hour time in quotes, for example "06:40"');

/** A time of day on the site's clock, "HH:MM", or one with its date before it, "YYYY-MM-DD HH:MM". */
export const dayTimeSchema = z
  .string()
  .regex(
    /^(\d{4}-\d{2}-\d{2} )?([01]\d|2[0-3]):[0-5]\d$/,
    'write a 24-hour time in quotes, for example "06:00", or date and time, "2026-03-09 16:30"',
  )
  .refine(
    (text) => text.length === 5 || DateTime.fromISO(text.slice(0, 10), { zone: 'utc' }).isValid,
    'this day is not in the calendar',
  );

/** Calendar date on the site's clock, "YYYY-MM-DD". */
export const dateSchema = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'write the date in quotes as year-month-day, for example "2026-03-09"')
  .refine((text) => DateTime.fromISO(text, { zone: 'utc' }).isValid, 'this day is not in the calendar');

export const timeZoneSchema = z
  .string()
  .refine(
    (zone) => DateTime.fromMillis(0, { zone }).isValid,
    'not a known IANA time zone; write one such as "Europe/Lisbon"',
  );

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;

/**
 * The instant at which the site's clock shows `time` on `date`.
 * A time that a spring change skips becomes the first time after the gap; a time that an autumn change repeats is
 * the earlier of the two, because a bell must not ring an hour late.
 */
export function instantOf(date: string, time: string, zone: string): Instant {
  const wall = DateTime.fromISO(`${date}T${time}`, { zone });
  return Math.min(...wall.getPossibleOffsets().map((option) => option.toMillis()));
}

/** The first instant after `after` (or equal to it) at which the site's clock shows `time`. */
export function nextInstantOf(after: Instant, time: string, zone: string): Instant {
  const date = dateAt(after, zone);
  const sameDay = instantOf(date, time, zone);
  if (sameDay >= after) return sameDay;
  return instantOf(addDays(date, 1), time, zone);
}

export function addDays(date: string, days: number): string {
  return DateTime.fromISO(date, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd');
}

export function dateAt(at: Instant, zone: string): string {
  return DateTime.fromMillis(at, { zone }).toFormat('yyyy-MM-dd');
}

/** "HH:MM" on the site's clock. */
export function clockTime(at: Instant, zone: string): string {
  return DateTime.fromMillis(at, { zone }).toFormat('HH:mm');
}

/** "HH:MM" on the site's clock, with the date in front when it is not `today`. */
export function clockTimeOn(at: Instant, zone: string, today: string): string {
  const date = dateAt(at, zone);
  return date === today ? clockTime(at, zone) : `${date} ${clockTime(at, zone)}`;
}

/** "HH:MM" on the site's clock, with weekday and day in front when it is not `today`: "Sun 14 Jun 04:00". */
export function weekdayTime(at: Instant, zone: string, today: string, locale: string): string {
  return inWeekdays(clockTimeOn(at, zone, today), locale);
}

/** A time with its date, as `clockTimeOn` gives it, in words: "Sun 14 Jun 04:00". Anything else stays as it is. */
export function inWeekdays(text: string, locale: string): string {
  if (!/^\d{4}-\d{2}-\d{2} \d{2}:\d{2}$/.test(text)) return text;
  // The site's wall clock is in the text already: it must not be moved to another zone.
  const wall = DateTime.fromFormat(text, 'yyyy-MM-dd HH:mm', { zone: 'utc' });
  return wall.isValid ? wall.setLocale(locale).toFormat('ccc d LLL HH:mm') : text;
}

/** A date in words, weekday first: "Monday 8 June". */
export function dateWords(date: string, locale: string): string {
  const day = { weekday: 'long', day: 'numeric', month: 'long' } as const;
  return DateTime.fromISO(date, { zone: 'utc' }).setLocale(locale).toLocaleString(day);
}

/** Days since 1970-01-01, for rotating questions by day without drawing lots. */
export function dayNumber(date: string): number {
  return Math.round(DateTime.fromISO(date, { zone: 'utc' }).toMillis() / (24 * HOUR));
}
