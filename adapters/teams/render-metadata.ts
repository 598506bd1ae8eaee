import { z } from 'zod';
import { formIds } from '../../src/message/form-ids.ts';

const metadataSchema = z.strictObject({
  form: z.enum(formIds),
  about: z.record(z.string(), z.string()),
  /** The shift it was opened in; null when there was none. */
  shift: z.string().nullable().optional(),
  /** Where what was typed on earlier steps is kept. */
  draft: z.string().optional(),
  /** Which step of how many, from 1. */
  step: z.strictObject({ at: z.number().int().min(1), of: z.number().int().min(1) }).optional(),
  /** Every input of the card: the platform may leave an empty one out of what it sends. */
  fields: z.array(
    z.strictObject({
      name: z.string(),
      /** Several answers, which the platform puts together with commas. */
      many: z.literal(true).optional(),
      /** Option values that cannot travel so, by what stands in for them. */
      values: z.record(z.string(), z.string()).optional(),
    }),
  ),
});

/** What a form's card carries about itself. */
export type Metadata = z.infer<typeof metadataSchema>;
export type FieldNote = Metadata['fields'][number];

/** What stands in the data of a sent form, or null when it is not one of ours (old, cut or forged). */
export function readMetadata(text: unknown): Metadata | null {
  if (typeof text !== 'string') return null;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const read = metadataSchema.safeParse(data);
  return read.success ? read.data : null;
}
