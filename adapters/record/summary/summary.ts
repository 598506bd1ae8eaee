import { z } from 'zod';
import type { Instant } from '../../../src/model/time.ts';
import type { Walk } from '../walk.ts';
import { batchesOf, batchesSchema } from './batches.ts';
import { bellsOf, bellsSchema } from './bells.ts';
import { briefingsOf, briefingsSchema } from './briefings.ts';
import * as close from './close.ts';
import { concernsOf, concernsSchema, stopsOf, stopsSchema } from './concerns.ts';
import { dayOf, daySchema } from './day.ts';
import { flushesOf, flushesSchema } from './flushes.ts';
import { handlingOf, handlingSchema, temperaturesOf, temperaturesSchema } from './handling.ts';
import { peopleOf, peopleSchema } from './people.ts';
import { readingsOf, readingsSchema } from './readings.ts';
import { rigChecksOf, rigChecksSchema, tagsOf, tagsSchema } from './rigs.ts';
import { namedSchema } from './shapes.ts';

/** A shift in facts, in the order of the day. All of it follows from the journal, whatever the language. */
export const summarySchema = z.strictObject({
  shift: z.string(),
  site: namedSchema,
  timeZone: z.string(),
  date: z.string(),
  status: z.enum(['open', 'closed']),
  closed: close.closedSchema.nullable(),
  /** Last seal of the shift before, null when there was none. */
  previousHead: z.string().nullable(),
  carriedIn: close.carrySchema.nullable(),
  day: daySchema,
  briefings: briefingsSchema,
  people: peopleSchema,
  concerns: concernsSchema,
  stops: stopsSchema,
  rigChecks: rigChecksSchema,
  tags: tagsSchema,
  readings: readingsSchema,
  batches: batchesSchema,
  temperatures: temperaturesSchema,
  handling: handlingSchema,
  bells: bellsSchema,
  flushes: flushesSchema,
  open: close.openSchema,
  carriesOver: close.carrySchema,
  undelivered: close.undeliveredSchema,
});
export type Summary = z.infer<typeof summarySchema>;

/** `now` only matters for a shift that is still open: what it would carry over at that moment. */
export function summaryOf(walk: Walk, now: Instant): Summary {
  const { end } = walk;
  const { site } = end.day;
  const [first] = walk.lines;
  return {
    shift: end.id,
    site: { id: site.id, name: site.name },
    timeZone: walk.zone,
    date: end.date,
    status: end.status,
    closed: close.closedOf(walk),
    previousHead: first?.body.type === 'day-posted' ? first.body.previousHead : null,
    carriedIn: close.carriedInOf(walk),
    day: dayOf(walk),
    briefings: briefingsOf(walk),
    people: peopleOf(walk),
    concerns: concernsOf(walk),
    stops: stopsOf(walk),
    rigChecks: rigChecksOf(walk),
    tags: tagsOf(walk),
    readings: readingsOf(walk),
    batches: batchesOf(walk),
    temperatures: temperaturesOf(walk),
    handling: handlingOf(walk),
    bells: bellsOf(walk),
    flushes: flushesOf(walk),
    open: close.openOf(walk),
    carriesOver: close.carriesOverOf(walk, now),
    undelivered: close.undeliveredOf(walk),
  };
}
