import { z } from 'zod';
import { coatWindow } from '../../../src/facts/recoat.ts';
import { carryOverOf, openItems } from '../../../src/flow/shift-record.ts';
import type { CarryOver } from '../../../src/model/day.ts';
import type { Instant } from '../../../src/model/time.ts';
import type { RecoatWindow } from '../../../src/trade/recoat.ts';
import { stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { coatingNamed, lineSchema, namedSchema, personNamed, rigNamed, whoOf, whoSchema } from './shapes.ts';

export const carrySchema = z.strictObject({
  fromShift: z.string(),
  fromDate: z.string(),
  tags: z.array(
    z.strictObject({ rig: namedSchema, cause: z.string(), text: z.string(), since: stampSchema }),
  ),
  unflushed: z.array(z.strictObject({ rig: namedSchema, coating: namedSchema, mixedAt: stampSchema })),
  skippedSteps: z.array(z.strictObject({ rig: namedSchema, step: z.string(), reason: z.string() })),
  settledSolvent: z.array(z.strictObject({ rig: namedSchema, solvent: z.string(), litres: z.number() })),
  concerns: z.array(z.strictObject({ by: namedSchema, text: z.string() })),
  stop: z.strictObject({ at: stampSchema, by: whoSchema, text: z.string() }).nullable(),
  coats: z.array(
    z.strictObject({
      area: z.string(),
      coating: namedSchema,
      coat: z.string(),
      firstAt: stampSchema,
      at: stampSchema,
      /** The window by the steel readings so far; null when the sheet has no table. */
      window: z
        .strictObject({
          opensAt: stampSchema,
          minHours: z.number(),
          coldestC: z.number().nullable(),
          /** Null: the sheet gives no latest time. */
          closesAt: stampSchema.nullable(),
          /** Null with a `closesAt`: hotter than the sheet's table, nothing is known from then on. */
          maxHours: z.number().nullable(),
          heldC: z.number().nullable(),
        })
        .nullable(),
    }),
  ),
});
export type CarrySummary = z.infer<typeof carrySchema>;

function carrySummary(walk: Walk, carry: CarryOver): CarrySummary {
  const { end, zone } = walk;
  const rig = (id: string) => rigNamed(end, id);
  return {
    fromShift: carry.fromShift,
    fromDate: carry.fromDate,
    tags: carry.tags.map((tag) => ({
      rig: rig(tag.rig),
      cause: tag.cause,
      text: tag.text,
      since: stamp(tag.since, zone),
    })),
    unflushed: carry.unflushed.map((one) => ({
      rig: rig(one.rig),
      coating: coatingNamed(end, one.coating),
      mixedAt: stamp(one.mixedAt, zone),
    })),
    skippedSteps: carry.skippedSteps.map(({ rig: id, step, reason }) => ({ rig: rig(id), step, reason })),
    settledSolvent: carry.settledSolvent.map(({ rig: id, solvent, litres }) => ({
      rig: rig(id),
      solvent,
      litres,
    })),
    concerns: carry.concerns.map(({ by, person, text }) => ({ by: { id: person, name: by }, text })),
    stop: carry.stop && {
      at: stamp(carry.stop.at, zone),
      by: whoOf(end, carry.stop.by),
      text: carry.stop.text,
    },
    coats: carry.coats.map((one) => ({
      area: one.area,
      coating: coatingNamed(end, one.coating),
      coat: one.coat,
      firstAt: stamp(one.firstAt, zone),
      at: stamp(one.at, zone),
      window: windowSummary(walk, coatWindow(end.day, one)),
    })),
  };
}

function windowSummary({ zone }: Walk, window: RecoatWindow | null): CarrySummary['coats'][number]['window'] {
  if (!window) return null;
  const { opensAt, minHours, coldestC, closes } = window;
  return {
    opensAt: stamp(opensAt, zone),
    minHours,
    coldestC,
    closesAt: closes && stamp(closes.at, zone),
    maxHours: closes?.maxHours ?? null,
    heldC: closes?.heldC ?? null,
  };
}

export function carriedInOf(walk: Walk): CarrySummary | null {
  return walk.end.carriedIn ? carrySummary(walk, walk.end.carriedIn) : null;
}

/** What was carried over when the shift was closed; for an open one what it would carry over at `now`. */
export function carriesOverOf(walk: Walk, now: Instant): CarrySummary {
  const closed = told(walk, 'shift-closed').at(-1);
  return carrySummary(walk, closed ? closed.body.carryOver : carryOverOf(walk.end, now));
}

export const openSchema = z.array(
  z.strictObject({
    what: z.enum(['open.mixed-paint', 'open.flush', 'open.step', 'open.concern', 'open.stop', 'open.tag']),
    name: z.string(),
    /** Of a flush step that was left out: the rig's id, the step, and why. */
    rig: z.string().optional(),
    step: z.string().optional(),
    reason: z.string().optional(),
  }),
);

export function openOf(walk: Walk): z.infer<typeof openSchema> {
  return openItems(walk.end).map((item) => {
    const { text: what, name } = item;
    if (item.text !== 'open.step') return { what, name };
    return { what, name, rig: item.rig, step: item.step, reason: item.reason };
  });
}

export const closedSchema = z.strictObject({
  line: lineSchema,
  at: stampSchema,
  /** Null: nobody closed it, a later shift took over what it left. */
  by: namedSchema.nullable(),
  handedTo: z.string().nullable(),
  /** Why it was closed although something was open. */
  reason: z.string(),
});

export function closedOf(walk: Walk): z.infer<typeof closedSchema> | null {
  const closed = told(walk, 'shift-closed').at(-1);
  if (!closed) return null;
  const { line, at, after, body } = closed;
  const when = { line, at: stamp(at, walk.zone) };
  if (body.by === null) return { ...when, by: null, handedTo: body.reason, reason: '' };
  return { ...when, by: personNamed(after, body.by), handedTo: null, reason: body.reason };
}

/** Messages that no surface could bring to their people. */
export const undeliveredSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    message: z.string(),
    /** "crew" or the id of a person. */
    to: z.string(),
    surface: z.string(),
    why: z.string(),
  }),
);

export function undeliveredOf(walk: Walk): z.infer<typeof undeliveredSchema> {
  return told(walk, 'message-undelivered').map(({ line, at, body: { message, to, surface, why } }) => ({
    line,
    at: stamp(at, walk.zone),
    message,
    to,
    surface,
    why,
  }));
}
