import { buttons, message } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { View } from './context.ts';
import { type Panel, panel } from './panel.ts';

/** Everything that can be pressed on the page of today, each under its own title, without the rest of that page. */
export function morePanels({ texts }: View, today: readonly Panel[]): readonly Panel[] {
  const pages = (['sign-off', 'notices', 'today'] as const).map((page) => ({
    label: texts.say(`talk.page.${page}`),
    tone: 'plain' as const,
    action: { kind: 'show', page } as const,
  }));
  const pressed = today.flatMap(({ id, title, message: { blocks } }) => {
    const found = pressesIn(blocks);
    return found.length === 0 ? [] : [panel(id, title, message(title, 'plain', ...found))];
  });
  const title = texts.say('talk.more-pages');
  return [...pressed, panel('pages', title, message(title, 'plain', ...buttons(...pages)))];
}

function pressesIn(blocks: readonly Block[]): readonly Block[] {
  return blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return pressesIn(block.blocks);
    return block.kind === 'buttons' ? [block] : [];
  });
}
