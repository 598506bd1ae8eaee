import type { KnownBlock } from '@slack/types';
import { heading } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Panel } from '../../src/views/pages.ts';
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

/** Several panels as one message, each under its title. */
export function onePage(title: string, panels: readonly Panel[]): Message {
  const blocks = panels.flatMap((panel) => {
    const { blocks: inside } = panel.message;
    const opens = inside[0]?.kind === 'heading' ? inside[0].text : null;
    return [...(opens === panel.title ? [] : [heading(panel.title)]), ...inside];
  });
  return { summary: title, tone: 'plain', blocks };
}

/** The blocks of a view. More of them than the platform takes is for whoever shows it to say. */
export function blocksOf(message: Message, options: RenderOptions): readonly KnownBlock[] {
  return renderPage(message, options);
}

export type { SlackPart };
