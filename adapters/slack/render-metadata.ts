import { z } from 'zod';
import type { Form } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import { limits } from './limits.ts';

const metadataSchema = z.strictObject({
  form: z.enum(formIds),
  about: z.record(z.string(), z.string()),
  /** The shift it was opened in; null when there was none. */
  shift: z.string().nullable().optional(),
  /** Where what was typed on earlier steps is kept: it would not fit in here. */
  draft: z.string().optional(),
  /** Which step of how many, from 1. */
  step: z.strictObject({ at: z.number().int().min(1), of: z.number().int().min(1) }).optional(),
  /** Option values that the platform could not take, by field; the option carries its place in this list. */
  values: z.record(z.string(), z.record(z.string(), z.string())).optional(),
});

/** What a modal carries about itself. */
export type Metadata = z.infer<typeof metadataSchema>;

/** Throws RangeError when it is longer than the platform takes. */
export function writeMetadata(metadata: Metadata, form: Form): string {
  const text = JSON.stringify(metadata);
  if (text.length <= limits.privateMetadata.most) return text;
  throw new RangeError(
    `The form "${form.id}" carries ${text.length} characters about itself; the chat platform takes at most ` +
      `${limits.privateMetadata.most}. Put ids into what it is about and shorter values into its options.`,
  );
}

/** What stands in a submitted modal, or null when it is not one of ours (old, cut or forged). */
export function readMetadata(text: string): Metadata | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const read = metadataSchema.safeParse(data);
  return read.success ? read.data : null;
}
