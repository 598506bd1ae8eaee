import type { KnownBlock } from '@slack/types';
import type { Message } from '../../src/message/message.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { mentionIn } from './people.ts';
import { type RenderOptions, renderMessage, type SlackPart } from './render.ts';
import type { SlackServices } from './services.ts';

/** How a message is rendered for readers of one language. `marker` begins every block id. */
export function optionsFor(
  services: Pick<SlackServices, 'pack' | 'words'>,
  texts: Texts,
  marker: string,
  more: RenderOptions['more'],
): RenderOptions {
  return {
    revision: marker,
    more,
    words: services.words(texts),
    person: mentionIn(services.pack()),
    // The platform's own date mark shows the reader's zone; the pot ages on the site's clock.
    when: (_to, clock) => clock,
  };
}

/** All blocks of all parts in their order, for a view, which cannot go on in a second message. */
export function blocksOf(message: Message, options: RenderOptions): readonly KnownBlock[] {
  return renderMessage(message, { ...options, more: 'inline' }).flatMap((part) => part.blocks);
}

export type { SlackPart };
