import { needsToSign } from '../briefing/build.ts';
import { strictestLimits } from '../facts/limits.ts';
import { potLifeUnknown } from '../facts/pot-life-points.ts';
import { highestBar } from '../facts/pressure.ts';
import { usedRigs } from '../facts/used.ts';
import type { Day } from '../model/day.ts';
import type { CoatingId, PersonId, RigId } from '../model/id.ts';
import type { Reading, Shift } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import { assessClimate, type ClimateAssessment, type LimitName } from '../trade/climate.ts';
import { lowestRating } from '../trade/line.ts';
import { rigClocks } from './clocks.ts';
import { closingAt } from './trend.ts';

/**
 * HO: named reasons why spraying should not start or go on. Computed from the shift whenever they are asked for, so a
 * hold ends when its reason does and by nothing else. No holds is not a permission: nothing here says work may begin.
 */
export type Hold =
  | { readonly kind: 'stop-work'; readonly text: string }
  | { readonly kind: 'not-briefed' }
  | { readonly kind: 'unsigned'; readonly people: readonly PersonId[] }
  | { readonly kind: 'concern'; readonly concern: string; readonly text: string }
  | { readonly kind: 'no-reading' }
  | { readonly kind: 'old-reading'; readonly takenAt: Instant }
  | {
      readonly kind: 'climate';
      readonly coating: CoatingId;
      readonly limit: LimitName;
      readonly value: number;
      readonly allowed: number;
    }
  | { readonly kind: 'rig-unchecked'; readonly rig: RigId }
  | { readonly kind: 'rig-tagged'; readonly rig: RigId }
  | { readonly kind: 'unflushed-line'; readonly rig: RigId }
  | {
      readonly kind: 'over-rating';
      readonly rig: RigId;
      readonly bar: number;
      readonly part: string;
      readonly rated: number;
    }
  | { readonly kind: 'rating-unknown'; readonly rig: RigId }
  | { readonly kind: 'pot-life-unknown'; readonly coating: CoatingId }
  | { readonly kind: 'past-pot-life'; readonly rig: RigId };

/** The holds on one rig and what is sprayed with it, or on the whole day when no rig is named. */
export function holdsOf(shift: Shift, now: Instant, rig?: RigId): readonly Hold[] {
  const rigs = rig === undefined ? rigsInUse(shift) : [rig];
  return [
    ...wholeDayHolds(shift, now),
    ...climateHolds(shift, rig),
    ...potLifeHolds(shift.day, rig),
    ...rigs.flatMap((id) => rigHolds(shift, id, now)),
  ];
}

function wholeDayHolds(shift: Shift, now: Instant): readonly Hold[] {
  const holds: Hold[] = [];
  if (shift.stop) holds.push({ kind: 'stop-work', text: shift.stop.text });
  if (shift.issuedAt === null) holds.push({ kind: 'not-briefed' });
  const missing = unsigned(shift);
  if (shift.issuedAt !== null && missing.length > 0) holds.push({ kind: 'unsigned', people: missing });
  for (const { id, text, resolved } of shift.concerns)
    if (!resolved) holds.push({ kind: 'concern', concern: id, text });
  const last = shift.readings.at(-1);
  if (!last) holds.push({ kind: 'no-reading' });
  else if (now >= nextReadingDue(shift, last)) holds.push({ kind: 'old-reading', takenAt: last.at });
  return holds;
}

/** However fast the margin goes, people need this long between two readings. */
const SOONEST_READING_MINUTES = 15;

/** CO2, CO6: the site's time, or half the time the trend leaves when that is sooner. */
export function nextReadingDue(shift: Shift, last: Reading): Instant {
  const regular = last.at + shift.day.policy.readingEveryMinutes * MINUTE;
  const closing = closingAt(shift, last);
  if (!closing) return regular;
  const half = Math.floor((closing.goneAt - last.at) / 2);
  return Math.min(regular, last.at + Math.max(SOONEST_READING_MINUTES * MINUTE, half));
}

/** SO6: who on the shift has not signed what the present briefing says. */
export function unsigned(shift: Shift): readonly PersonId[] {
  return Object.keys(shift.people).filter((id) => {
    if (!shift.day.crew.includes(id)) return false;
    return needsToSign(shift.briefing, shift.people[id]?.signed ?? {}).length > 0;
  });
}

export function climateOf(day: Day, reading: Reading, coating: CoatingId): ClimateAssessment {
  return assessClimate(reading, strictestLimits(day, day.coatings[coating] ?? null));
}

function climateHolds(shift: Shift, rig: RigId | undefined): readonly Hold[] {
  const last = shift.readings.at(-1);
  if (!last) return [];
  return coatingsOn(shift.day, rig).flatMap((coating) =>
    climateOf(shift.day, last, coating).failures.map(
      ({ limit, value, allowed }) => ({ kind: 'climate', coating, limit, value, allowed }) as const,
    ),
  );
}

/** HO4: no clock can run for it. It holds until the pot life is on the sheet and the day is posted again. */
function potLifeHolds(day: Day, rig: RigId | undefined): readonly Hold[] {
  return coatingsOn(day, rig)
    .filter((coating) => potLifeUnknown(day.coatings[coating]))
    .map((coating) => ({ kind: 'pot-life-unknown', coating }));
}

/** What is sprayed today with one rig, or with any. */
function coatingsOn(day: Day, rig: RigId | undefined): readonly CoatingId[] {
  const jobs = day.entry.jobs.filter((job) => rig === undefined || job.rig === rig);
  return [...new Set(jobs.map((job) => job.coating))];
}

function rigHolds(shift: Shift, rig: RigId, now: Instant): readonly Hold[] {
  const state = shift.rigs[rig];
  if (!state) return [];
  const holds: Hold[] = [];
  if (state.tag) holds.push({ kind: 'rig-tagged', rig });
  if (state.unflushed) holds.push({ kind: 'unflushed-line', rig });
  if (!state.checked) holds.push({ kind: 'rig-unchecked', rig });
  holds.push(...pressureHolds(shift.day, rig));
  const expired = rigClocks(shift, rig).some((clock) => clock.times.deadAt <= now);
  if (expired) holds.push({ kind: 'past-pot-life', rig });
  return holds;
}

/** Unknown pressure or rating is the hazardous case: it holds until somebody has read it off the part. */
function pressureHolds(day: Day, rig: RigId): readonly Hold[] {
  if (!usedRigs(day).some(({ id }) => id === rig)) return [];
  const bar = plannedPressure(day, rig);
  const ratings = day.rigs[rig]?.ratings ?? [];
  const known =
    bar !== null && ['hose', 'gun'].every((part) => ratings.some((rating) => rating.part === part));
  const unknown: readonly Hold[] = known ? [] : [{ kind: 'rating-unknown', rig }];
  if (bar === null || ratings.length === 0) return unknown;
  const lowest = lowestRating(ratings);
  if (bar <= lowest.bar) return unknown;
  return [...unknown, { kind: 'over-rating', rig, bar, part: lowest.part, rated: lowest.bar }];
}

/** Highest fluid pressure of today's jobs on a rig, bar. Null when it has no job, or when a number for it is missing. */
export function plannedPressure(day: Day, rig: RigId): number | null {
  const used = usedRigs(day).find(({ id }) => id === rig);
  return used ? highestBar(day, used) : null;
}

/** Rigs with a job today, and those with paint in them, an unfinished flush or a tag whether they have one or not. */
export function rigsInUse(shift: Shift): readonly RigId[] {
  const holding = Object.keys(shift.rigs).filter((id) => {
    const state = shift.rigs[id];
    return state?.line || state?.pot || state?.flush || state?.tag || state?.unflushed;
  });
  return [...new Set([...rigsOfDay(shift.day), ...holding])];
}

export function rigsOfDay(day: Day): readonly RigId[] {
  return [...new Set(day.entry.jobs.map((job) => job.rig))];
}
