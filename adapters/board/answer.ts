import { html } from 'hono/html';
import type { Panel } from '../../src/views/pages.ts';
import type { BoardContext, BoardParts, View } from './parts.ts';
import { renderShell, type ShellParts } from './shell.ts';

/** Bells not yet answered are the panels of page `today` with such an id; the board lifts them to the top. */
export const isBell = (panel: Panel): boolean => /^bells?($|[-:])/.test(panel.id);

export function bellsOf(
  { services }: BoardParts,
  { pack, shift, now, texts, viewer }: View,
): readonly Panel[] {
  return services.pages('today', { pack, shift, now, texts, viewer }).filter(isBell);
}

export type StillStatus = 200 | 400 | 403 | 404 | 409 | 413 | 422 | 429 | 500;

/** Answer with a page that stands still (form, log-in, result), bells on top. */
export function answerStill(
  parts: BoardParts,
  c: BoardContext,
  view: View,
  { status, ...rest }: Pick<ShellParts, 'title' | 'path' | 'body'> & { readonly status: StillStatus },
) {
  const said = parts.visits.takeSaid(view.visit);
  return c.html(renderShell(view, { ...rest, page: null, said, bells: bellsOf(parts, view) }), status);
}

/** A short answer in words, with the way back to where people can act. */
export function answerWords(
  parts: BoardParts,
  c: BoardContext,
  view: View,
  status: StillStatus,
  title: string,
  text: string,
) {
  const body = html`<section class="panel" data-tone="attention" aria-label="${title}"><p>${text}</p><p class="buttons"><a class="button" data-tone="main" href="/">${view.words.goToday}</a></p></section>`;
  return answerStill(parts, c, view, { status, title, path: '/', body });
}
