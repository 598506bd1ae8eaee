import { z } from 'zod';
import { tasks } from '../briefing/task.ts';
import { hazardCodeSchema } from './coating-sheet.ts';
import { dayEntrySchema } from './day-entry.ts';
import { idSchema } from './id.ts';

/** Begins the id of every caution of a site, so that none of them can ever stand in for one of the catalogue. */
export const SITE_CAUTION = 'site-';

export const gradeSchema = z.enum(['stop', 'must', 'watch']);

/**
 * When a caution of the site applies: every line that is there must hold. There is no line for an area: it is typed anew
 * each day, and a slip in it would take the caution away without a word.
 */
export const siteCautionWhenSchema = z.strictObject({
  surroundings: z.array(dayEntrySchema.shape.surroundings).min(1).optional().describe('any of these'),
  coatings: z.array(idSchema).min(1).optional().describe('any of these is used'),
  rigs: z.array(idSchema).min(1).optional().describe('any of these is used'),
  hazards: z.array(hazardCodeSchema).min(1).optional().describe('a coating that is used has any of these'),
  windFromMps: z
    .number()
    .min(0)
    .max(40)
    .optional()
    .describe('wind expected, m/s; not given counts as enough'),
  sun: z.literal(true).optional().describe('sun on hoses or steel'),
});
export type SiteCautionWhen = z.infer<typeof siteCautionWhenSchema>;

const ownCautionSchema = z.strictObject({
  id: z
    .string()
    .regex(
      /^site-[a-z0-9][a-z0-9-]{0,34}$/,
      'write site- and then small letters, digits and hyphens, for example "site-rail-line"',
    ),
  grade: gradeSchema,
  tasks: z.array(z.enum(tasks)).min(1).optional().describe('whose hands it is about; left out: everybody'),
  when: siteCautionWhenSchema.default({}).describe('every line must hold; left out: every day'),
});

const tightenSchema = z.record(z.string(), gradeSchema).default({}).describe('caution id: a harder grade');

/** `cautions.yaml`. It can add and tighten; there is no field that takes away or softens. */
export const cautionsFileSchema = z.strictObject({
  tighten: tightenSchema,
  own: z.array(ownCautionSchema).max(30).default([]),
});
export type CautionsFile = z.infer<typeof cautionsFileSchema>;

/** What the site adds to the catalogue, with what the rules need to know of its words. */
export const siteCautionsSchema = z.strictObject({
  tighten: tightenSchema,
  own: z
    .array(
      ownCautionSchema.extend({
        questions: z.array(z.strictObject({ id: z.string(), choices: z.number().int().min(2) })),
        edition: z.string().describe('another one for other words, so that they are signed again'),
      }),
    )
    .default([]),
});
export type SiteCautions = z.infer<typeof siteCautionsSchema>;
export type SiteCaution = SiteCautions['own'][number];
