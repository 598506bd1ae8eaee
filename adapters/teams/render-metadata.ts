import { z } from 'zod';
import { formMetadata, metadataIn } from '../../src/chat/form-metadata.ts';

const metadataSchema = z.strictObject({
  ...formMetadata,
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
export const readMetadata = (text: unknown): Metadata | null => metadataIn(metadataSchema, text);
