import { z } from 'zod';

/**
 * A file into a person's own files: the bot asks with one card, Teams names where the bytes go once the person agreed,
 * and the bot shows the file with another. In personal chats only. Shapes: learn.microsoft.com/microsoftteams/platform/
 * bots/how-to/bots-filesv4.
 */
const CONSENT = 'application/vnd.microsoft.teams.card.file.consent';
const INFO = 'application/vnd.microsoft.teams.card.file.info';

export interface FileCard {
  readonly contentType: typeof CONSENT | typeof INFO;
  readonly name: string;
  readonly contentUrl?: string;
  readonly content: Readonly<Record<string, unknown>>;
}

/** What comes back with the answer: what the file is of, and never the file itself. */
export const contextSchema = z.strictObject({
  shift: z.string().min(1).max(200),
  format: z.literal('html'),
});

/** What Teams says of where the file goes; the addresses are not checked by this. */
export const uploadSchema = z.object({
  contentUrl: z.string(),
  name: z.string().min(1),
  uploadUrl: z.string(),
  uniqueId: z.string().min(1),
  fileType: z.string(),
});
export type Upload = z.infer<typeof uploadSchema>;

/** `bytes` tells the person how large it is about; the file itself is made when they have agreed. */
export function consentCard(
  name: string,
  description: string,
  bytes: number,
  context: z.infer<typeof contextSchema>,
): FileCard {
  const content = { description, sizeInBytes: bytes, acceptContext: context, declineContext: context };
  return { contentType: CONSENT, name, content };
}

/** The file that now is there, to be opened from the chat. */
export function infoCard({ contentUrl, name, uniqueId, fileType }: Upload): FileCard {
  return { contentType: INFO, contentUrl, name, content: { uniqueId, fileType } };
}
