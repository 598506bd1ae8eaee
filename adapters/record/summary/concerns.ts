import { z } from 'zod';
import { stamp, stampSchema } from '../stamp.ts';
import { type Told, told, type Walk } from '../walk.ts';
import { lineSchema, namedSchema, personNamed, whoOf, whoSchema } from './shapes.ts';

export const answerSchema = z.strictObject({
  line: lineSchema,
  at: stampSchema,
  by: namedSchema,
  text: z.string(),
});
export type Answer = z.infer<typeof answerSchema>;

export const concernsSchema = z.array(
  z.strictObject({
    id: z.string(),
    line: lineSchema,
    at: stampSchema,
    by: namedSchema,
    text: z.string(),
    /** An earlier shift left it open. */
    carriedIn: z.boolean(),
    /** Null while it is open. */
    resolved: answerSchema.nullable(),
  }),
);
export type ConcernSummary = z.infer<typeof concernsSchema>[number];

export function concernsOf(walk: Walk): ConcernSummary[] {
  const resolved = told(walk, 'concern-resolved');
  return walk.lines.flatMap(({ line, before, after, body }) =>
    after.concerns.slice(before?.concerns.length ?? 0).map(({ id, at, by, text }) => {
      const done = resolved.find((one) => one.body.concern === id);
      return {
        id,
        line,
        at: stamp(at, walk.zone),
        by: personNamed(after, by),
        text,
        carriedIn: body.type === 'day-posted' || body.type === 'carried-over',
        resolved: done ? answered(walk, done) : null,
      };
    }),
  );
}

/** Every stop-work call, cleared or not: the shift's state only remembers the one that stands. */
export const stopsSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    by: whoSchema,
    text: z.string(),
    /** An earlier shift left it standing. */
    carriedIn: z.boolean(),
    cleared: answerSchema.nullable(),
  }),
);
export type StopSummary = z.infer<typeof stopsSchema>[number];

export function stopsOf(walk: Walk): StopSummary[] {
  const cleared = told(walk, 'stop-cleared');
  return walk.lines.flatMap(({ line, before, after, body }) => {
    const { stop } = after;
    if (!stop || before?.stop) return [];
    const done = cleared.find((one) => one.line > line);
    return [
      {
        line,
        at: stamp(stop.at, walk.zone),
        by: whoOf(after, stop.by),
        text: stop.text,
        carriedIn: body.type === 'day-posted' || body.type === 'carried-over',
        cleared: done ? answered(walk, done) : null,
      },
    ];
  });
}

/** The line that took something back as a mistake, in the words of who did; null when none did. */
export function takenBack(
  walk: Walk,
  back: Told<'reading-voided'> | Told<'batch-voided'> | Told<'flush-abandoned'> | undefined,
): Answer | null {
  if (!back) return null;
  const { line, at, after, body } = back;
  return { line, at: stamp(at, walk.zone), by: personNamed(after, body.by), text: body.reason };
}

/** The line that put something right, in the words of who did. */
export function answered(
  walk: Walk,
  done: Told<'concern-resolved'> | Told<'stop-cleared'> | Told<'tag-cleared'>,
): Answer {
  const { line, at, after, body } = done;
  return { line, at: stamp(at, walk.zone), by: personNamed(after, body.by), text: body.text };
}
