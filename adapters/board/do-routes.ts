import type { Hono } from 'hono';
import { answerWords } from './answer.ts';
import { readPosted } from './inbound.ts';
import { type BoardContext, type BoardParts, look } from './parts.ts';
import { takePress } from './press.ts';
import { answerPress } from './press-answer.ts';
import { formPath, showPath } from './render-html.ts';
import type { BoardEnv } from './services.ts';
import type { Press } from './session.ts';

/** Buttons. The value says what; who comes from the log-in alone. */
export function doRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  app.post('/do', async (c) => {
    const posted = await readPosted(c);
    if (posted === null || posted.action === null) {
      const view = await look(parts, c);
      return answerWords(parts, c, view, 400, view.words.oldButtonTitle, view.words.oldButtonText);
    }
    const { action, board } = posted;
    switch (action.kind) {
      case 'show':
        return c.redirect(showPath(action.page, (c.get('visit')?.person ?? null) !== null), 303);
      case 'open':
        return c.redirect(formPath(action.form, board.back), 303);
      case 'do':
        return doPress(parts, c, { ...board, command: action.command });
    }
  });
}

export async function doPress(parts: BoardParts, c: BoardContext, press: Press): Promise<Response> {
  const pressed = await takePress(parts, c.get('visit'), press);
  return answerPress(parts, c, pressed, { pending: { kind: 'do', press }, press });
}
