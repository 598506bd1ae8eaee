import { z } from 'zod';
import { plannedPressure, rigsOfDay } from '../../../src/flow/holds.ts';
import type { Day } from '../../../src/model/day.ts';
import type { Shift } from '../../../src/model/shift.ts';
import { policySchema } from '../../../src/model/site.ts';
import { wetFilmUm } from '../../../src/trade/film.ts';
import { differences } from '../difference.ts';
import { stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { coatingNamed, lineSchema, namedSchema, personNamed, rigNamed, whoOf, whoSchema } from './shapes.ts';

const MOST_CHANGES = 40;

const job = z.strictObject({
  area: z.string(),
  coating: namedSchema,
  coat: z.enum(['primer', 'stripe', 'intermediate', 'finish', 'repair']),
  areaM2: z.number(),
  dftUm: z.number(),
  wftUm: z.number(),
  rig: namedSchema,
  airBar: z.number().nullable(),
  fluidBar: z.number().nullable(),
  thinnerPct: z.number(),
  sprayers: z.array(namedSchema),
  mixers: z.array(namedSchema),
});

/** The day as it stood at the end, who posted it, and each later change of it. */
export const daySchema = z.strictObject({
  line: lineSchema,
  postedAt: stampSchema,
  postedBy: whoSchema,
  prestartAt: stampSchema,
  startsAt: stampSchema,
  endsAt: stampSchema,
  breaks: z.array(z.strictObject({ from: stampSchema, to: stampSchema })),
  surroundings: z.enum(['open-air', 'enclosed', 'confined']),
  weather: z.strictObject({
    airC: z.number(),
    rhPct: z.number(),
    steelC: z.number().nullable(),
    windMps: z.number().nullable(),
    sun: z.boolean(),
  }),
  notes: z.string(),
  jobs: z.array(job),
  /** Highest fluid pressure planned on each rig, whole bar, rounded up. */
  pressures: z.array(z.strictObject({ rig: namedSchema, bar: z.number() })),
  crew: z.array(namedSchema),
  policy: policySchema,
  changes: z.array(
    z.strictObject({
      line: lineSchema,
      at: stampSchema,
      by: whoSchema,
      /** At most 40 of the changed values. */
      values: z.array(z.strictObject({ what: z.string(), before: z.json(), after: z.json() })),
    }),
  ),
});
export type DaySummary = z.infer<typeof daySchema>;

/** @throws Error when no line of the journal posts a day. */
export function dayOf(walk: Walk): DaySummary {
  const { end, zone } = walk;
  const { day } = end;
  const [posted] = told(walk, 'day-posted');
  if (!posted) throw new Error(`The journal of shift "${end.id}" posts no day.`);
  const { weather, surroundings, notes } = day.entry;
  return {
    line: posted.line,
    postedAt: stamp(posted.at, zone),
    postedBy: whoOf(posted.after, posted.by),
    prestartAt: stamp(day.prestartAt, zone),
    startsAt: stamp(day.startsAt, zone),
    endsAt: stamp(day.endsAt, zone),
    breaks: day.breaks.map(({ from, to }) => ({ from: stamp(from, zone), to: stamp(to, zone) })),
    surroundings,
    weather: {
      airC: weather.airC,
      rhPct: weather.rhPct,
      steelC: weather.steelC ?? null,
      windMps: weather.windMps ?? null,
      sun: weather.sun,
    },
    notes,
    jobs: jobsOf(end),
    pressures: rigsOfDay(day).flatMap((rig) => {
      const bar = plannedPressure(day, rig);
      return bar === null ? [] : [{ rig: rigNamed(end, rig), bar: Math.ceil(bar) }];
    }),
    crew: day.crew.map((id) => personNamed(end, id)),
    policy: day.policy,
    changes: changesOf(walk),
  };
}

function jobsOf(shift: Shift): DaySummary['jobs'] {
  return shift.day.entry.jobs.map((job) => ({
    area: job.area,
    coating: coatingNamed(shift, job.coating),
    coat: job.coat,
    areaM2: job.areaM2,
    dftUm: job.dftUm,
    wftUm: Math.round(
      wetFilmUm(job.dftUm, shift.day.coatings[job.coating]?.volumeSolids ?? 100, job.thinnerPct),
    ),
    rig: rigNamed(shift, job.rig),
    airBar: job.airBar ?? null,
    fluidBar: job.fluidBar ?? null,
    thinnerPct: job.thinnerPct,
    sprayers: job.sprayers.map((id) => personNamed(shift, id)),
    mixers: job.mixers.map((id) => personNamed(shift, id)),
  }));
}

function changesOf(walk: Walk): DaySummary['changes'] {
  return told(walk, 'day-changed').map(({ line, at, by, before, after }) => ({
    line,
    at: stamp(at, walk.zone),
    by: whoOf(after, by),
    values: before
      ? differences(posted(before.day), posted(after.day), MOST_CHANGES).map(({ path, left, right }) => ({
          what: path,
          before: json(left),
          after: json(right),
        }))
      : [],
  }));
}

/** What people wrote; the instants and lists that follow from it would only say the same thing twice. */
function posted({ entry, policy, coatings, rigs, people, site, emergency }: Day) {
  return { entry, policy, coatings, rigs, people, site, emergency };
}

function json(value: unknown): z.infer<ReturnType<typeof z.json>> {
  return value === undefined
    ? null
    : (JSON.parse(JSON.stringify(value)) as z.infer<ReturnType<typeof z.json>>);
}
