import { z } from 'zod';
import { clockOf } from '../../../src/flow/clocks.ts';
import type { EventBody } from '../../../src/model/event.ts';
import { holdKinds, type Mixed, type Shift } from '../../../src/model/shift.ts';
import { MINUTE } from '../../../src/model/time.ts';
import { inductionMinutes } from '../../../src/trade/induction.ts';
import { maybeStamp, stamp, stampSchema } from '../stamp.ts';
import { type Told, told, type Walk } from '../walk.ts';
import { answerSchema, takenBack } from './concerns.ts';
import { coatingNamed, lineSchema, namedSchema, personNamed, rigNamed } from './shapes.ts';

const places = ['pot', 'line'] as const;
type Place = (typeof places)[number];

/** One batch in the pot or in the line, with its clock as it stood last: when it left, or at the end. */
const clock = z.strictObject({
  where: z.enum(places),
  since: stampSchema,
  /** All three are null for a one-pack, which has no pot life. */
  useBy: stampSchema.nullable(),
  startFlushBy: stampSchema.nullable(),
  deadAt: stampSchema.nullable(),
  /** The pot life was shorter than the flush takes. */
  tooShort: z.boolean(),
  /** Null: still in there at the end. */
  goneAt: stampSchema.nullable(),
  /** What took it out; `older-paint`: it is still there, but the clock of older paint logged later counts for it. */
  goneBy: z
    .enum([
      'pot-emptied',
      'fresh-batch',
      'line-renewed',
      'primary-flush',
      'older-paint',
      'taken-back',
      'other',
    ])
    .nullable(),
});
export type ClockSummary = z.infer<typeof clock>;

export const batchesSchema = z.array(
  z.strictObject({
    id: z.string(),
    line: lineSchema,
    rig: namedSchema,
    coating: namedSchema,
    mixedAt: stampSchema,
    loggedAt: stampSchema,
    by: namedSchema,
    litres: z.number(),
    aL: z.number(),
    bL: z.number(),
    thinnerL: z.number(),
    paintC: z.number(),
    pot: z.enum(['fresh', 'on-top']),
    /** The older batch whose clock counts for this one too. */
    governedBy: z.string().nullable(),
    standUntil: stampSchema.nullable(),
    /** The holds that stood when it was mixed. */
    underHolds: z.array(z.enum(holdKinds)),
    /** Taken back as never in this rig: by whom, when and why. */
    withdrawn: answerSchema.nullable(),
    clocks: z.array(clock),
  }),
);
export type BatchSummary = z.infer<typeof batchesSchema>[number];

export function batchesOf(walk: Walk): BatchSummary[] {
  const clocks = clocksOf(walk);
  const voided = told(walk, 'batch-voided');
  return told(walk, 'batch-mixed').map(({ line, after, body: { batch } }) => {
    const pot = after.rigs[batch.rig]?.pot?.batch ?? batch.id;
    const induction = after.day.coatings[batch.coating]?.induction ?? [];
    const stand = induction.length > 0 ? inductionMinutes(induction, batch.paintC).minutes * MINUTE : null;
    return {
      id: batch.id,
      line,
      rig: rigNamed(after, batch.rig),
      coating: coatingNamed(after, batch.coating),
      mixedAt: stamp(batch.at, walk.zone),
      loggedAt: stamp(batch.loggedAt, walk.zone),
      by: personNamed(after, batch.by),
      litres: batch.litres,
      aL: hundredths(batch.aL),
      bL: hundredths(batch.bL),
      thinnerL: batch.thinnerL,
      paintC: batch.paintC,
      pot: batch.pot,
      governedBy: pot === batch.id ? null : pot,
      standUntil: maybeStamp(stand === null ? null : batch.at + stand, walk.zone),
      underHolds: [...batch.underHolds],
      withdrawn: takenBack(
        walk,
        voided.find(({ body }) => body.batch === batch.id),
      ),
      clocks: clocks.get(batch.id) ?? [],
    };
  });
}

/** Each stay of a batch in a pot or a line, by batch. The clock is the last one before it went. */
function clocksOf(walk: Walk): ReadonlyMap<string, ClockSummary[]> {
  const byBatch = new Map<string, ClockSummary[]>();
  const inside = new Map<string, ClockSummary>();
  for (const one of walk.lines) {
    for (const rig of new Set([...Object.keys(one.before?.rigs ?? {}), ...Object.keys(one.after.rigs)])) {
      for (const where of places) {
        const was = one.before?.rigs[rig]?.[where] ?? null;
        const is = one.after.rigs[rig]?.[where] ?? null;
        const key = `${rig} ${where}`;
        const stay = inside.get(key);
        if (stay && was && was.batch !== is?.batch) {
          stay.goneAt = stamp(one.at, walk.zone);
          stay.goneBy = goneBy(one.body);
          inside.delete(key);
        }
        if (!is) continue;
        const now = inside.get(key);
        if (now) Object.assign(now, times(one.after, rig, where, is, walk.zone));
        else if (one.body.type === 'batch-voided' && reopened(byBatch, inside, key, is.batch, where)) {
          const again = inside.get(key);
          if (again) Object.assign(again, times(one.after, rig, where, is, walk.zone));
        } else {
          const fresh = stayOf(one, rig, where, is, walk.zone);
          inside.set(key, fresh);
          byBatch.set(is.batch, [...(byBatch.get(is.batch) ?? []), fresh]);
        }
      }
    }
  }
  return byBatch;
}

/** Older paint that only seemed replaced, by a batch that never was: its stay goes on as if nothing had been. */
function reopened(
  byBatch: ReadonlyMap<string, readonly ClockSummary[]>,
  inside: Map<string, ClockSummary>,
  key: string,
  batch: string,
  where: Place,
): boolean {
  const stay = byBatch.get(batch)?.findLast((one) => one.where === where);
  if (!stay) return false;
  stay.goneAt = null;
  stay.goneBy = null;
  inside.set(key, stay);
  return true;
}

function goneBy(body: EventBody): ClockSummary['goneBy'] {
  if (body.type === 'pot-emptied' || body.type === 'line-renewed') return body.type;
  if (body.type === 'step-confirmed') return 'primary-flush';
  if (body.type === 'batch-voided') return 'taken-back';
  if (body.type === 'batch-mixed') return body.batch.pot === 'fresh' ? 'fresh-batch' : 'older-paint';
  return 'other';
}

function stayOf({ at, after }: Told, rig: string, where: Place, mixed: Mixed, zone: string): ClockSummary {
  return {
    where,
    since: stamp(at, zone),
    ...times(after, rig, where, mixed, zone),
    goneAt: null,
    goneBy: null,
  };
}

function times({ day }: Shift, rig: string, where: Place, mixed: Mixed, zone: string) {
  const found = clockOf(day, rig, where, mixed)?.times;
  return {
    useBy: maybeStamp(found?.useBy ?? null, zone),
    startFlushBy: maybeStamp(found?.startFlushBy ?? null, zone),
    deadAt: maybeStamp(found?.deadAt ?? null, zone),
    tooShort: found?.tooShort ?? false,
  };
}

/** Parts are split by ratio; more digits than a measuring cup has would only look exact. */
function hundredths(litres: number): number {
  return Math.round(litres * 100) / 100;
}
