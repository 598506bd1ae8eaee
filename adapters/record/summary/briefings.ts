import { z } from 'zod';
import { maybeStamp, stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { lineSchema, whoOf, whoSchema } from './shapes.ts';

const params = z.record(z.string(), z.union([z.string(), z.number()]));

/** Every revision of the briefing with its cautions; `issuedAt` is null for one that was replaced before it went out. */
export const briefingsSchema = z.array(
  z.strictObject({
    revision: z.int().positive(),
    line: lineSchema,
    writtenAt: stampSchema,
    writtenBy: whoSchema,
    issuedAt: stampSchema.nullable(),
    cautions: z.array(
      z.strictObject({
        id: z.string(),
        grade: z.enum(['stop', 'must', 'watch']),
        /** New or different against the revision before. */
        changed: z.boolean(),
        params,
        each: z.array(params),
      }),
    ),
  }),
);
export type BriefingSummary = z.infer<typeof briefingsSchema>[number];

export function briefingsOf(walk: Walk): BriefingSummary[] {
  const issued = told(walk, 'briefing-issued');
  const revisions = new Map<number, BriefingSummary>();
  // What the last shift left is looked at again when the briefing goes out: the same revision, written anew.
  for (const one of told(walk, 'day-posted', 'day-changed', 'carried-over')) {
    const { line, at, by, after } = one;
    const { revision, cautions, changed } = one.body.briefing;
    revisions.set(revision, {
      revision,
      line,
      writtenAt: stamp(at, walk.zone),
      writtenBy: whoOf(after, by),
      issuedAt: maybeStamp(issued.find(({ body }) => body.revision === revision)?.at ?? null, walk.zone),
      cautions: cautions.map(({ id, grade, params, each }) => ({
        id,
        grade,
        changed: changed.includes(id),
        params: { ...params },
        each: each.map((row) => ({ ...row })),
      })),
    });
  }
  return [...revisions.values()];
}
