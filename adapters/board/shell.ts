import { html } from 'hono/html';
import { encodeAction, type Page } from '../../src/message/action.ts';
import type { Message } from '../../src/message/message.ts';
import { clockTime, dateAt, dateWords } from '../../src/model/time.ts';
import type { Panel } from '../../src/views/pages.ts';
import { assetPaths, build } from './assets.ts';
import { potIcon, toneIcons } from './icons.ts';
import { type Lead, sameAs } from './lead-panel.ts';
import type { View } from './parts.ts';
import { boardFields, type Html, loginPath, pagePaths, toneMark } from './render-html.ts';
import { panelId, renderBell, renderMessage, renderPanel } from './render-message.ts';
import { type BoardWords, fill, pageWords } from './words.ts';

export interface ShellParts {
  /** Null for pages that stand still while somebody types: forms and log-in. */
  readonly page: Page | null;
  readonly title: string;
  /** Path with query of this page; a press comes back here. */
  readonly path: string;
  readonly bells: readonly Panel[];
  readonly said: readonly Message[];
  readonly body: Html | readonly Html[];
  /** The panels in `body`: an answer that one of them gives as well is not shown in full a second time. */
  readonly panels?: readonly Panel[];
  readonly lead?: Lead | null;
}

const navPages = ['today', 'briefing', 'sign-off', 'notices', 'record'] as const satisfies readonly Page[];

/** A whole page: what is the same on every one, around its own body. */
export function renderShell(view: View, parts: ShellParts): Html {
  const { words } = view;
  const title = [...parts.said.map((message) => message.summary), parts.title, words.boardName].join(' – ');
  const { lead } = parts;
  const leading = lead ? { _lead: lead.panel, _until: String(lead.until) } : {};
  const fragment = `/fragment/${parts.page ?? 'still'}?${new URLSearchParams({ _at: parts.path, ...leading })}`;
  return html`<!doctype html>
<html lang="${view.texts.language}" dir="${view.texts.direction}">
<head>
<meta charset="utf-8" />
<title>${title}</title>
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta name="color-scheme" content="light dark" />
<link rel="icon" href="${assetPaths.icon}" type="image/svg+xml" />
<link rel="stylesheet" href="${assetPaths.css}" />
<script src="${assetPaths.js}" defer></script>
${parts.page === null ? '' : html`<noscript><meta http-equiv="refresh" content="30;url=${pagePaths[parts.page]}?_auto=1" /></noscript>`}
</head>
<body data-now="${view.now}" data-zone="${view.zone}" data-fragment="${fragment}" data-build="${build}" data-words="${clientWords(words)}">
<a class="skip" href="#main">${words.skip}</a>
${topBar(view, parts)}
<nav aria-label="${words.pagesLabel}">${navPages.map((page) => navLink(page, parts.page, words))}</nav>
<section class="tools" aria-label="${words.thisScreen}">
  <div class="tool-row">
    <button type="button" class="button" id="bell-test" hidden>${words.bellTest}</button>
    <button type="button" class="button" id="bell-enable" data-tone="attention" hidden>${toneIcons.attention}<span>${words.bellEnable}</span></button>
    ${renderWho(view, parts.path)}
  </div>
  <p id="live-state" class="strip" role="status" data-tone="attention" hidden></p>
  <p id="sound-state" class="strip" role="status" hidden></p>
  <p id="announce" class="for-ears" role="status"></p>
  ${parts.page === null ? '' : html`<noscript><p class="strip" data-tone="attention">${words.noScript}</p></noscript>`}
  ${ringing(words)}
</section>
${renderBells(view, parts.bells, parts.path)}
<main id="main" tabindex="-1">
<div class="title"><h1>${parts.title}</h1>${parts.page === null ? '' : html`<p>${dayOf(view)} · ${view.pack.site.name}</p>`}</div>
${parts.said.map((message, at) => html`<div role="status">${renderSaid(view, parts, message, `said-${at}`)}</div>`)}
${parts.body}
</main>
<footer><p>${words.footer}</p></footer>
</body>
</html>`;
}

/** The answer to a press. When a panel of the page says it all, its one line with the way there is enough. */
function renderSaid(view: View, { path, panels = [] }: ShellParts, message: Message, id: string): Html {
  const same = sameAs(message, panels);
  const context = view.render(path);
  if (same === undefined) return renderMessage(message, id, context, { kind: 'panel said' });
  const { summary, tone } = message;
  const mark = toneMark(tone, view.words);
  return html`<section class="panel said" id="${id}" data-tone="${tone}" aria-label="${summary}">${mark === '' ? '' : html`<p class="tone-row">${mark}</p>`}<p class="summary"><a href="#${panelId(same.id)}">${summary}</a></p></section>`;
}

function topBar(view: View, { page, path }: ShellParts): Html {
  const { words } = view;
  const stop = encodeAction({ kind: 'do', command: { type: 'stop-work', text: '' } });
  const { newId } = view.render(path);
  return html`<header class="bar">
  <a class="brand" href="/">${potIcon}<span class="brand-name">${words.boardName}</span></a>
  <time id="clock">${clockTime(view.now, view.zone)}</time>
  <div class="urgent">
    <a class="button" id="emergency" data-tone="danger" href="${pagePaths.emergency}"${page === 'emergency' ? html` aria-current="page"` : ''}>${words.emergency}</a>
    <form method="post" action="/do">${boardFields({ newId, shift: null, back: path })}<input type="hidden" name="_action" value="${stop}" /><button class="button" id="stop-work" data-tone="stop" title="${words.stopWorkHint}">${words.stopWork}</button></form>
  </div>
</header>`;
}

/** What the script shows over the foot of the page while a bell rings. */
function ringing(words: BoardWords): Html {
  return html`<div id="ringing" role="alert" hidden>
    <p class="ringing-text"><strong>${words.bellRinging}</strong> <span id="ringing-what"></span></p>
    <p id="ringing-silent" hidden>${words.bellBlocked}</p>
    <div class="buttons"><a class="button" id="bell-show" href="#bells">${words.bellShow}</a><button type="button" class="button" id="bell-quiet">${words.bellQuiet}</button></div>
    <p class="hint">${words.bellQuietNote}</p>
  </div>`;
}

function navLink(page: Page, current: Page | null, words: BoardWords): Html {
  return html`<a href="${pagePaths[page]}"${page === current ? html` aria-current="page"` : ''}>${words[pageWords[page]]}</a>`;
}

/** Who is logged in on this browser, and the way out; refreshed by itself so that an ended log-in shows. */
export function renderWho(view: View, path: string): Html {
  const { words } = view;
  if (view.viewerName === null) {
    return html`<div id="who"><a class="button" id="log-in" href="${loginPath(path)}">${words.logIn}</a></div>`;
  }
  return html`<div id="who"><span class="who-name"><bdi>${fill(words.loggedInAs, { name: view.viewerName })}</bdi></span><form method="post" action="/logout"><button class="button" id="log-out">${words.logOut}</button></form></div>`;
}

/** The bells nobody has answered, above everything else on every page. */
export function renderBells(view: View, bells: readonly Panel[], path: string): Html {
  const open = bells.length > 0;
  return html`<aside id="bells" aria-label="${view.words.bellsLabel}" data-count="${bells.length}"${open ? '' : html` hidden`}>${bells.map((panel) => renderBell(panel, view.render(path)))}</aside>`;
}

export function renderPanels(
  view: View,
  panels: readonly Panel[],
  path: string,
  { first = [], more = [] }: { readonly first?: readonly Html[]; readonly more?: readonly Html[] } = {},
): Html {
  return html`<div id="panels" class="panels">${first}${panels.map((panel) => renderPanel(panel, view.render(path)))}${more}</div>`;
}

function dayOf(view: View): string {
  return dateWords(view.shift?.date ?? dateAt(view.now, view.zone), view.texts.locale);
}

/** The words the page's own script needs. */
function clientWords(words: BoardWords): string {
  const { leftDays, leftHours, leftMinutes, leftSoon, past, pastNow, spanDays, spanHours, spanMinutes } =
    words;
  const { liveLost, liveBack, bellTested, bellCannot } = words;
  return JSON.stringify({
    ...{ leftDays, leftHours, leftMinutes, leftSoon, past, pastNow, spanDays, spanHours, spanMinutes },
    ...{ liveLost, liveBack, bellTested, bellCannot },
  });
}
