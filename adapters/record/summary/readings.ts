import { z } from 'zod';
import { climateOf } from '../../../src/flow/holds.ts';
import { stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { answerSchema, takenBack } from './concerns.ts';
import { coatingNamed, lineSchema, namedSchema, personNamed } from './shapes.ts';

const limits = ['margin', 'rh-max', 'rh-min', 'steel-min', 'steel-max', 'air-min', 'air-max'] as const;

export const readingsSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    by: namedSchema,
    place: z.string(),
    airC: z.number(),
    rhPct: z.number(),
    wetC: z.number().nullable(),
    steelC: z.number(),
    /** To the hundredth. */
    dewPointC: z.number(),
    /** Steel over dew point, rounded down to the hundredth: 2.996 must not read as the 3 that is asked for. */
    marginC: z.number(),
    /** Limits of the day's coatings that this reading misses, as they stood then. */
    missed: z.array(
      z.strictObject({ coating: namedSchema, limit: z.enum(limits), value: z.number(), allowed: z.number() }),
    ),
    /** Taken back as wrong: by whom, when and why. */
    withdrawn: answerSchema.nullable(),
  }),
);
export type ReadingSummary = z.infer<typeof readingsSchema>[number];

export function readingsOf(walk: Walk): ReadingSummary[] {
  const voided = told(walk, 'reading-voided');
  return told(walk, 'reading-taken').map(({ line, at, after, body }) => {
    const back = voided.find((one) => one.line > line && one.body.takenAt === at);
    const reading = { ...body.reading, at };
    const coatings = [...new Set(after.day.entry.jobs.map((job) => job.coating))];
    const found = coatings.map((coating) => ({ coating, ...climateOf(after.day, reading, coating) }));
    const [any] = found;
    if (!any) throw new Error(`The day of shift "${after.id}" has no job at line ${line}.`);
    return {
      line,
      at: stamp(at, walk.zone),
      by: personNamed(after, reading.by),
      place: reading.place,
      airC: reading.airC,
      rhPct: reading.rhPct,
      wetC: reading.wetC,
      steelC: reading.steelC,
      dewPointC: Math.round(any.dewPointC * 100) / 100,
      marginC: Math.floor(any.marginC * 100) / 100,
      missed: found.flatMap(({ coating, failures }) =>
        failures.map(({ limit, value, allowed }) => ({
          coating: coatingNamed(after, coating),
          limit,
          value: Math.round(value * 1000) / 1000,
          allowed,
        })),
      ),
      withdrawn: takenBack(walk, back),
    };
  });
}
