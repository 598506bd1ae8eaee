import { z } from 'zod';
import { rigChecks } from '../../../src/model/checks.ts';
import type { RigId } from '../../../src/model/id.ts';
import type { Shift } from '../../../src/model/shift.ts';
import { stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { answered, answerSchema } from './concerns.ts';
import { lineSchema, namedSchema, personNamed, rigNamed, whoOf, whoSchema } from './shapes.ts';

export const rigChecksSchema = z.array(
  z.strictObject({
    line: lineSchema,
    at: stampSchema,
    rig: namedSchema,
    by: namedSchema,
    results: z.array(
      z.strictObject({ check: z.enum(rigChecks), result: z.enum(['ok', 'defect', 'not-answered']) }),
    ),
    note: z.string(),
  }),
);
export type RigCheckSummary = z.infer<typeof rigChecksSchema>[number];

export function rigChecksOf(walk: Walk): RigCheckSummary[] {
  return told(walk, 'rig-checked').map(({ line, at, after, body }) => ({
    line,
    at: stamp(at, walk.zone),
    rig: rigNamed(after, body.rig),
    by: personNamed(after, body.by),
    results: rigChecks.map((check) => ({ check, result: body.results[check] ?? 'not-answered' })),
    note: body.note,
  }));
}

/** A rig tagged out, from the first report to the clearing; what was reported meanwhile is one tag. */
export const tagsSchema = z.array(
  z.strictObject({
    rig: namedSchema,
    since: stampSchema,
    /** An earlier shift left it. */
    carriedIn: z.boolean(),
    reports: z.array(
      z.strictObject({
        line: lineSchema,
        at: stampSchema,
        /** Null: an earlier shift put it on. */
        by: whoSchema.nullable(),
        cause: z.enum(['check', 'report', 'flush', 'not-flushed']),
        text: z.string(),
      }),
    ),
    cleared: answerSchema.nullable(),
  }),
);
export type TagSummary = z.infer<typeof tagsSchema>[number];

export function tagsOf(walk: Walk): TagSummary[] {
  const { zone } = walk;
  const tags: TagSummary[] = [];
  const open = (rig: RigId) => tags.find((tag) => tag.rig.id === rig && tag.cleared === null);
  for (const one of told(walk, 'day-posted', 'carried-over', 'rig-tagged', 'tag-cleared')) {
    const { line, at, by, before, after, body } = one;
    if (body.type === 'day-posted' || body.type === 'carried-over') {
      tags.push(...carriedTags(before, after, line, zone));
      continue;
    }
    const tag = open(body.rig);
    if (body.type === 'tag-cleared') {
      if (tag) tag.cleared = answered(walk, { ...one, body });
      continue;
    }
    const { cause, text } = body;
    const report = { line, at: stamp(at, zone), by: whoOf(after, by), cause, text };
    if (tag) tag.reports.push(report);
    else
      tags.push({
        rig: rigNamed(after, body.rig),
        since: report.at,
        carriedIn: false,
        reports: [report],
        cleared: null,
      });
  }
  return tags;
}

/** Tags that the shift before left hanging: no line of their own puts them on. */
function carriedTags(before: Shift | null, after: Shift, line: number, zone: string): TagSummary[] {
  return Object.entries(after.rigs).flatMap(([id, { tag }]) => {
    if (!tag || before?.rigs[id]?.tag) return [];
    const since = stamp(tag.at, zone);
    const report = { line, at: since, by: null, cause: tag.cause, text: tag.text };
    return [{ rig: rigNamed(after, id), since, carriedIn: true, reports: [report], cleared: null }];
  });
}
