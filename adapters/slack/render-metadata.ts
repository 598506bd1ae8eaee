import { z } from 'zod';
import { formMetadata, metadataIn } from '../../src/chat/form-metadata.ts';
import type { Form } from '../../src/message/form.ts';
import { limits } from './limits.ts';

const metadataSchema = z.strictObject({
  ...formMetadata,
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
export const readMetadata = (text: string): Metadata | null => metadataIn(metadataSchema, text);
