import { z } from 'zod';
import { secondsBetween, stamp, stampSchema } from '../stamp.ts';
import { type Told, told, type Walk } from '../walk.ts';
import { lineSchema, namedSchema, personNamed, rigNamed } from './shapes.ts';

const ring = z.strictObject({
  line: lineSchema,
  scheduledFor: stampSchema,
  rangAt: stampSchema,
  lateSeconds: z.number(),
  /** More than a minute behind. */
  late: z.boolean(),
  level: z.enum(['crew', 'foreman', 'safety']),
  /** Rings that fell out before this one while Potbell was not running. */
  missedRings: z.int().min(0),
});
export type RingSummary = z.infer<typeof ring>;

/** A bell for one due time with all its rings. One whose time moved later and rang anew is an entry of its own. */
export const bellsSchema = z.array(
  z.strictObject({
    bell: z.string(),
    kind: z.string(),
    rig: namedSchema.nullable(),
    person: namedSchema.nullable(),
    dueAt: stampSchema,
    rings: z.array(ring),
    /** Null: nobody answered, or it asks for no answer. */
    answered: z.strictObject({ line: lineSchema, at: stampSchema, by: namedSchema }).nullable(),
  }),
);
export type BellSummary = z.infer<typeof bellsSchema>[number];

export function bellsOf(walk: Walk): BellSummary[] {
  const bells: BellSummary[] = [];
  const latest = new Map<string, BellSummary>();
  for (const one of told(walk, 'bell-rang', 'bell-answered')) {
    const { line, at, after, body } = one;
    const known = latest.get(body.bell);
    if (body.type === 'bell-answered') {
      if (known) known.answered = { line, at: stamp(at, walk.zone), by: personNamed(after, body.by) };
      continue;
    }
    const rang = ringOf({ ...one, body }, walk.zone);
    // One ring in the state: it began anew for a later due time.
    if (known && (after.bells[body.bell]?.rings.length ?? 0) > 1) {
      known.rings.push(rang);
      known.answered = null;
      continue;
    }
    const fresh: BellSummary = {
      bell: body.bell,
      kind: body.kind,
      rig: body.rig === null ? null : rigNamed(after, body.rig),
      person: body.person === null ? null : personNamed(after, body.person),
      dueAt: stamp(body.dueAt, walk.zone),
      rings: [rang],
      answered: null,
    };
    bells.push(fresh);
    latest.set(body.bell, fresh);
  }
  return bells;
}

function ringOf({ line, at, body }: Told<'bell-rang'>, zone: string): RingSummary {
  return {
    line,
    scheduledFor: stamp(body.scheduledFor, zone),
    rangAt: stamp(at, zone),
    lateSeconds: secondsBetween(body.scheduledFor, at),
    late: body.late,
    level: body.level,
    missedRings: body.missedRings,
  };
}
