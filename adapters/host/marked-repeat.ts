import { note } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import type { Texts } from '../../src/texts/texts.ts';

/** Said when an earlier try ended without an answer: people may have seen it already, and must not think it is new. */
export function markedRepeat(message: Message, texts: Texts): Message {
  return { ...message, blocks: [...message.blocks, note('plain', texts.say('late.repeat'))] };
}
