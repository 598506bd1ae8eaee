import { z } from 'zod';
import { formIds } from '../message/form-ids.ts';

/** What a form says about itself on every chat platform; each adds how its answers are to be read. */
export const formMetadata = {
  form: z.enum(formIds),
  about: z.record(z.string(), z.string()),
  /** The shift it was opened in; null when there was none. */
  shift: z.string().nullable().optional(),
  /** Where what was typed on earlier steps is kept. */
  draft: z.string().optional(),
  /** Which step of how many, from 1. */
  step: z.strictObject({ at: z.number().int().min(1), of: z.number().int().min(1) }).optional(),
};
export type FormMetadata = z.infer<z.ZodObject<typeof formMetadata>>;

/** What stands in a submitted form, or null when it is not one of ours (old, cut or forged). */
export function metadataIn<T>(schema: z.ZodType<T>, text: unknown): T | null {
  if (typeof text !== 'string') return null;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const read = schema.safeParse(data);
  return read.success ? read.data : null;
}
