import { z } from 'zod';
import { type Upload, uploadSchema } from './file-card.ts';

/** The invoke by which a person answers whether a file may go into their files. */
export const FILE_CONSENT = 'fileConsent/invoke';

const valueSchema = z.discriminatedUnion('action', [
  z.object({ type: z.literal('fileUpload'), action: z.literal('decline'), context: z.unknown() }),
  z.object({
    type: z.literal('fileUpload'),
    action: z.literal('accept'),
    context: z.unknown(),
    uploadInfo: uploadSchema,
  }),
]);

export interface FileAnswered {
  /** As it was given with the question, but from outside all the same. */
  readonly context: unknown;
  /** Null: they do not want it. */
  readonly upload: Upload | null;
}

/** Null for a value of another shape. Source: see `file-card.ts`. */
export function readFileAnswer(value: unknown): FileAnswered | null {
  const read = valueSchema.safeParse(value);
  if (!read.success) return null;
  const { data } = read;
  return { context: data.context, upload: data.action === 'accept' ? data.uploadInfo : null };
}
