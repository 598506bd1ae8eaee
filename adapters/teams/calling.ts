import type { Block, Inline, Message } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { Person, SitePack } from '../../src/model/site.ts';
import type { Texts } from '../../src/texts/texts.ts';

/**
 * A bell as everybody in the channel is to hear it. A card cannot mention a whole channel (learn.microsoft.com/
 * microsoftteams/platform/task-modules-and-cards/cards/cards-format, "Mention support within Adaptive Cards": people
 * and, since later, tags; from memory): who is named in it is mentioned, and the foremen, as far as they are linked.
 */
export function calling(said: Message, pack: SitePack, texts: Texts): Message {
  const words = plainText(said);
  const called = pack.people.filter(
    (person) => person.teams !== undefined && (person.roles.includes('foreman') || isNamed(person, words)),
  );
  if (called.length === 0) return said;
  // A bare name would read as the only one to do it, or two as one person.
  const names = called.flatMap(({ id, name }, at): Inline[] => [
    ...(at === 0 ? [] : [', ']),
    { kind: 'person', id, name },
  ]);
  const line = [`${texts.say('talk.called')}: `, ...names];
  // Behind what is to be done and for whom: over it, a name reads as if only this person were to do it.
  const behind = said.blocks.findIndex(({ kind }) => ends.has(kind));
  const at = behind < 0 ? said.blocks.length : behind;
  return {
    ...said,
    blocks: [...said.blocks.slice(0, at), { kind: 'paragraph', line }, ...said.blocks.slice(at)],
  };
}

/** Where the words to read come to an end. */
const ends: ReadonlySet<Block['kind']> = new Set(['buttons', 'more', 'below', 'divider']);

/** As a whole word, whatever the letters. */
function isNamed({ name }: Person, words: string): boolean {
  for (let at = words.indexOf(name); at >= 0; at = words.indexOf(name, at + 1)) {
    const around = `${words.charAt(at - 1)}${words.charAt(at + name.length)}`;
    if (!/\p{L}|\p{N}/u.test(around)) return true;
  }
  return false;
}
