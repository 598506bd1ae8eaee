import type { Hono } from 'hono';
import { html } from 'hono/html';
import type { Page } from '../../src/message/action.ts';
import type { Panel } from '../../src/views/pages.ts';
import { bellsOf, isBell } from './answer.ts';
import { emergencyFallback, shiftUnreadPanel } from './emergency-panel.ts';
import { askedLead, inOrder, leadOf } from './lead-panel.ts';
import { localPath } from './local-path.ts';
import { noticesPanel } from './notices-panel.ts';
import { type BoardContext, type BoardParts, look, type View, viewOf } from './parts.ts';
import { recordFilesPanel } from './record-files-panel.ts';
import { type Html, loginPath, pagePaths } from './render-html.ts';
import type { BoardEnv } from './services.ts';
import { renderBells, renderPanels, renderShell, renderWho } from './shell.ts';
import { pageWords } from './words.ts';

function panelsOf(
  { services }: BoardParts,
  page: Page,
  { pack, shift, now, texts, viewer }: View,
): readonly Panel[] {
  return services.pages(page, { pack, shift, now, texts, viewer });
}

interface Content {
  readonly view: View;
  readonly bells: readonly Panel[];
  readonly panels: readonly Panel[];
  /** What stands before and after the panels. */
  readonly first: readonly Html[];
  readonly more: readonly Html[];
}

async function contentOf(parts: BoardParts, c: BoardContext, page: Page): Promise<Content> {
  const view = await look(parts, c);
  const panels = panelsOf(parts, page, view).filter((panel) => !isBell(panel));
  const first = page === 'sign-off' && view.viewer === null ? [whoPanel(view, pagePaths[page])] : [];
  const more: Html[] = [];
  if (page === 'record') more.push(await recordFilesPanel(parts, view));
  if (page === 'notices') more.push(await noticesPanel(parts, view));
  return { view, bells: bellsOf(parts, view), panels, first, more };
}

/** On a page that is somebody's own, for whoever has not said who they are. */
function whoPanel({ words }: View, path: string): Html {
  return html`<section class="panel" id="p-who" data-tone="attention" data-v="1" aria-labelledby="p-who-title"><h2 id="p-who-title">${words.chooseName}</h2><p class="buttons"><a class="button" id="p-who-log-in" data-tone="main" href="${loginPath(path)}">${words.logIn}</a></p></section>`;
}

/** The emergency page must come up whatever is broken: without the shift, and if need be from the site pack alone. */
function emergencyContent(parts: BoardParts, c: BoardContext, error: unknown): Content {
  parts.services.log.error({ err: error }, 'the emergency page is shown without the shift');
  const view = viewOf(parts, c.get('visit'), null);
  const show = (panels: readonly Panel[], more: readonly Html[]): Content => ({
    view,
    bells: [],
    panels,
    first: [],
    more,
  });
  try {
    return show(panelsOf(parts, 'emergency', view), [shiftUnreadPanel(view)]);
  } catch (second) {
    parts.services.log.error({ err: second }, 'the emergency page is shown from the site pack alone');
    return show([], [emergencyFallback(view), shiftUnreadPanel(view)]);
  }
}

async function contentFor(parts: BoardParts, c: BoardContext, page: Page): Promise<Content> {
  if (page !== 'emergency') return contentOf(parts, c, page);
  return contentOf(parts, c, page).catch((error) => emergencyContent(parts, c, error));
}

export function pageRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  for (const [page, path] of Object.entries(pagePaths) as [Page, string][]) {
    app.get(path, async (c) => {
      const content = await contentFor(parts, c, page);
      const { view, bells, panels } = content;
      const said = parts.visits.takeSaid(view.visit);
      const title = view.words[pageWords[page]];
      const lead = leadOf(said, panels, view.now);
      const body = renderPanels(view, inOrder(panels, lead), path, content);
      return c.html(renderShell(view, { page, title, path, bells, said, body, panels, lead }));
    });

    app.get(`/fragment/${page}`, async (c) => {
      const content = await contentFor(parts, c, page);
      const { view, bells } = content;
      const panels = inOrder(content.panels, askedLead(c, view.now));
      const body = renderPanels(view, panels, path, content);
      return c.html(fragment(view, renderBells(view, bells, path), renderWho(view, path), body));
    });
  }

  app.get('/fragment/still', async (c) => {
    const view = await look(parts, c);
    const path = localPath(c.req.query('_at')) ?? '/';
    return c.html(
      fragment(view, renderBells(view, bellsOf(parts, view), path), renderWho(view, path), html``),
    );
  });
}

/** What an open page takes its fresh parts from. */
function fragment(view: View, ...regions: readonly Html[]): Html {
  return html`<div id="fragment" data-now="${view.now}">${regions}</div>`;
}
