import type { RenderContext } from '../../adapters/board/render-html.ts';
import { renderMessage } from '../../adapters/board/render-message.ts';
import { defaultBoardWords } from '../../adapters/board/words.ts';
import type { Message } from '../../src/message/message.ts';

/** A message as the board shows it to somebody who is logged in. */
export function boardHtml(message: Message, now: number): string {
  const context: RenderContext = {
    words: defaultBoardWords,
    now,
    newId: () => 'one-press',
    shift: 'quay:2026-05-12',
    back: '/briefing',
    loggedIn: true,
  };
  return String(renderMessage(message, 'briefing', context));
}
