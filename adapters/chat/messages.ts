import { heading, note, paragraph } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import type { Panel } from '../../src/views/pages.ts';

/** One or two sentences to somebody. */
export function words(tone: Message['tone'], first: string, ...more: readonly string[]): Message {
  return { summary: first, tone, blocks: [note(tone, first), ...more.map((text) => paragraph(text))] };
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
