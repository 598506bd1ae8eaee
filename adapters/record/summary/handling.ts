import { z } from 'zod';
import { rigClocks } from '../../../src/flow/clocks.ts';
import type { RigId } from '../../../src/model/id.ts';
import type { Shift } from '../../../src/model/shift.ts';
import { maybeStamp, type Stamp, stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { lineSchema, namedSchema, rigNamed, whoOf, whoSchema } from './shapes.ts';

/** Paint and hose temperatures, with what each did to the use-by time of the clock that governs the rig. */
export const temperaturesSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    by: whoSchema,
    rig: namedSchema,
    where: z.enum(['pot', 'hose']),
    c: z.number(),
    basis: z.enum(['measured', 'felt-warm']),
    useByBefore: stampSchema.nullable(),
    useByAfter: stampSchema.nullable(),
  }),
);
export type TemperatureSummary = z.infer<typeof temperaturesSchema>[number];

export function temperaturesOf(walk: Walk): TemperatureSummary[] {
  return told(walk, 'temperature-noted').map(
    ({ line, at, by, before, after, body: { rig, where, c, basis } }) => ({
      line,
      at: stamp(at, walk.zone),
      by: whoOf(after, by),
      rig: rigNamed(after, rig),
      where,
      c,
      basis,
      useByBefore: useBy(before, rig, walk.zone),
      useByAfter: useBy(after, rig, walk.zone),
    }),
  );
}

function useBy(shift: Shift | null, rig: RigId, zone: string): Stamp | null {
  return maybeStamp((shift && rigClocks(shift, rig)[0]?.times.useBy) ?? null, zone);
}

/** Pauses, empty pots and fresh batches that went through the line. */
export const handlingSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    by: whoSchema,
    rig: namedSchema,
    what: z.enum(['paused', 'resumed', 'pot-emptied', 'line-renewed']),
    /** Thrown away with the pot, or sprayed until the line counted as fresh. */
    litres: z.number().nullable(),
    why: z.string(),
  }),
);
export type HandlingSummary = z.infer<typeof handlingSchema>[number];

export function handlingOf(walk: Walk): HandlingSummary[] {
  return told(walk, 'paused', 'resumed', 'pot-emptied', 'line-renewed').map(
    ({ line, at, by, after, body }) => ({
      line,
      at: stamp(at, walk.zone),
      by: whoOf(after, by),
      rig: rigNamed(after, body.rig),
      what: body.type,
      litres:
        body.type === 'pot-emptied' ? body.wastedL : body.type === 'line-renewed' ? body.sprayedL : null,
      why: body.type === 'paused' ? body.why : '',
    }),
  );
}
