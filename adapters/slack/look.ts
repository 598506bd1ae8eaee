import type { KnownBlock } from '@slack/types';
import type { Message } from '../../src/message/message.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { mentionIn } from './people.ts';
import { type RenderOptions, renderPage, type SlackPart } from './render.ts';
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

/** The blocks of a view. More of them than the platform takes is for whoever shows it to say. */
export function blocksOf(message: Message, options: RenderOptions): readonly KnownBlock[] {
  return renderPage(message, options);
}

export type { SlackPart };
