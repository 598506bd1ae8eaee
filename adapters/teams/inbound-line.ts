import { z } from 'zod';
import type { Activity } from './inbound-parts.ts';

const mentionSchema = z.object({
  type: z.literal('mention'),
  text: z.string(),
  mentioned: z.object({ id: z.string() }),
});

/** The line somebody wrote to Potbell, as it was typed: without its mention, and the names of others as names. */
export function lineOf({ text = '', entities = [], recipient }: Activity): string {
  const own = entities.flatMap((entity) => {
    const read = mentionSchema.safeParse(entity);
    return read.success && read.data.mentioned.id === recipient?.id ? [read.data.text] : [];
  });
  const without = own.reduce((left, mention) => left.replaceAll(mention, ' '), text);
  return unescaped(without.replace(/<at(?:\s[^>]*)?>(.*?)<\/at>/gs, '$1')).trim();
}

const entities: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
  '&apos;': "'",
  '&nbsp;': ' ',
  '&amp;': '&',
};

/** What the platform escaped, as it was typed; each place once, so that a typed "&amp;lt;" stays what it was. */
export const unescaped = (text: string): string =>
  text
    .replace(/&(?:lt|gt|quot|#39|apos|nbsp|amp);/g, (found) => entities[found] ?? found)
    .replaceAll('\u00a0', ' ');
