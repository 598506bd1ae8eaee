/**
 * Mentions: each <at>…</at> in the words has its entity, and each entity its words. learn.microsoft.com/
 * microsoftteams/platform/bots/how-to/conversations/channel-and-group-conversations, "Add mentions to your messages".
 * Teams shows a mention without its pair as plain words; here it is refused, so that a test sees it.
 */
import { dict, dicts, text } from '../slack/json.ts';

export function mentionProblems(words: string, entities: unknown): string[] {
  const named = dicts(entities).filter((one) => one.type === 'mention');
  const pairs = named.map((one) => text(one.text));
  const marks = [...words.matchAll(/<at[^>]*>.*?<\/at>/g)].map(([mark]) => mark);
  const lonely = marks.filter((one) => !pairs.includes(one)).map((one) => `${one} has no entity`);
  const wordless = pairs
    .filter((one) => !marks.includes(one))
    .map((one) => `the entity ${one} is not in the words`);
  const nobody = named
    .filter((one) => text(dict(one.mentioned).id) === '')
    .map(() => 'a mention names nobody');
  return [...lonely, ...wordless, ...nobody];
}

/** All words anywhere in a part of a card, one after another. */
export function wordsIn(value: unknown): string {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return value.map(wordsIn).join(' ');
  return Object.values(dict(value)).map(wordsIn).join(' ');
}
