import { html } from 'hono/html';
import { encodeAction, type FormRef, type Page } from '../../src/message/action.ts';
import type { Block, Button, Inline, Line, Tone } from '../../src/message/message.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Instant } from '../../src/model/time.ts';
import { stateIcons, toneIcons } from './icons.ts';
import { runsRightToLeft } from './own-words.ts';
import { remainingText } from './remaining.ts';
import { renderTimeline } from './render-timeline.ts';
import type { BoardWords } from './words.ts';

/** Already escaped. Everything else put into a template is escaped there, once. */
export type Html = ReturnType<typeof html>;

export interface RenderContext {
  readonly words: BoardWords;
  readonly now: Instant;
  readonly newId: () => string;
  /** The shift this page shows: a press from it goes to that shift and no other. */
  readonly shift: ShiftId | null;
  /** The path to come back to after a press. */
  readonly back: string;
  /** False: a button to a page that must know who looks leads to the log-in first. */
  readonly loggedIn: boolean;
}

/** One place in a page: its id makes focus and opened details survive a refresh. */
export interface Place extends RenderContext {
  readonly id: string;
  readonly top: boolean;
  /** The tone of the panel around, whose mark need not be repeated. */
  readonly around: Tone;
}

type BlockOf<K extends Block['kind']> = Extract<Block, { kind: K }>;

const inlines = {
  strong: (inline: Extract<Inline, { kind: 'strong' }>) => html`<strong>${ownWords(inline.text)}</strong>`,
  person: (inline: Extract<Inline, { kind: 'person' }>) => html`<bdi class="person">${inline.name}</bdi>`,
} as const satisfies Record<Exclude<Inline, string>['kind'], unknown>;

/** A piece of text that may turn the line around it stands apart; all others stay plain. */
function ownWords(text: string): string | Html {
  return runsRightToLeft(text) ? html`<bdi>${text}</bdi>` : text;
}

function renderLine(line: Line): readonly (string | Html)[] {
  return line.map((inline) => {
    if (typeof inline === 'string') return ownWords(inline);
    return inline.kind === 'strong' ? inlines.strong(inline) : inlines.person(inline);
  });
}

/** The tone in words with its shape; nothing for plain. */
export function toneMark(tone: Tone, words: BoardWords): Html | '' {
  const text = { plain: '', good: words.toneGood, attention: words.toneAttention, danger: words.toneDanger }[
    tone
  ];
  return text === '' ? '' : html`<span class="tone">${toneIcons[tone]}<span>${text}</span></span>`;
}

const blocks = {
  heading: (block, { id, top }) =>
    top ? html`<h2 id="${id}">${block.text}</h2>` : html`<h3 id="${id}">${block.text}</h3>`,
  paragraph: (block) => html`<p>${renderLine(block.line)}</p>`,
  list: (block) => {
    const items = block.items.map((item) => html`<li>${renderLine(item)}</li>`);
    return block.ordered ? html`<ol>${items}</ol>` : html`<ul>${items}</ul>`;
  },
  facts: (block) =>
    html`<dl class="facts">${block.facts.map(
      (fact) => html`<div><dt>${fact.label}</dt><dd>${renderLine(fact.value)}</dd></div>`,
    )}</dl>`,
  note: (block, { words }) =>
    html`<p class="note" data-tone="${block.tone}">${toneMark(block.tone, words)} ${renderLine(block.line)}</p>`,
  countdown: (block, { words, now, around }) =>
    html`<div class="countdown" role="timer" data-tone="${block.tone}" data-to="${block.to}"${block.to <= now ? html` data-past` : ''}>
      <span class="countdown-label">${block.label}</span>
      <time class="countdown-clock"${block.clock.length > 5 ? html` data-long` : ''} datetime="${new Date(block.to).toISOString()}">${block.clock}</time>
      <span class="countdown-left">${remainingText(block.to - now, words)}</span>
      ${block.tone === around ? '' : toneMark(block.tone, words)}
    </div>`,
  checklist: (block, { words }) => {
    const states = {
      done: words.stateDone,
      open: words.stateOpen,
      next: words.stateNext,
      skipped: words.stateSkipped,
      defect: words.stateDefect,
    };
    return html`<ol class="checklist">${block.items.map(
      (item) =>
        html`<li data-state="${item.state}">${stateIcons[item.state]}<span class="state">${states[item.state]}</span> <span class="item">${renderLine(item.line)}</span></li>`,
    )}</ol>`;
  },
  timeline: (block, { id }) => renderTimeline(block, id),
  more: (block, place) =>
    html`<details id="${place.id}"><summary>${foldLabel(block.label)}</summary><div class="more">${renderBlocks(block.blocks, { ...place, top: false })}</div></details>`,
  below: (block, place) =>
    html`<h3>${block.label}</h3>${renderBlocks(block.blocks, { ...place, top: false })}`,
  divider: () => html`<hr />`,
  buttons: (block, place) =>
    html`<div class="buttons">${block.buttons.map((button, at) => renderButton(button, { ...place, id: `${place.id}-${at}` }))}</div>`,
} as const satisfies { readonly [K in Block['kind']]: (block: BlockOf<K>, place: Place) => Html };

function renderBlock<K extends Block['kind']>(block: BlockOf<K>, place: Place): Html {
  const render = blocks[block.kind as K] as (block: BlockOf<K>, place: Place) => Html;
  return render(block, place);
}

/** Blocks at one place of a page: under a title of their own (`top`) or below it. */
export function renderBlocks(list: readonly Block[], place: Place): readonly Html[] {
  let top = place.top;
  return list.map((block, at) => {
    const here = { ...place, top, id: `${place.id}-${at}` };
    if (block.kind === 'heading') top = false;
    return renderBlock(block, here);
  });
}

/** What is named behind a colon is lighter than the count before it: a dozen bold titles read like a shout. */
function foldLabel(label: string): Html | string {
  const colon = label.indexOf(': ');
  if (colon < 0) return label;
  return html`<span>${label.slice(0, colon + 1)} <span class="named">${label.slice(colon + 2)}</span></span>`;
}

export const pagePaths = {
  today: '/',
  briefing: '/briefing',
  'sign-off': '/sign-off',
  notices: '/notices',
  why: '/why',
  more: '/more',
  record: '/record',
  emergency: '/emergency',
} as const satisfies Record<Page, string>;

/** Pages that are somebody's own: read without a log-in they show no one's part. */
const needsName: readonly Page[] = ['sign-off'];

/** Where a button to a page leads: first to the log-in when the page must know who looks. */
export function showPath(page: Page, loggedIn: boolean): string {
  const path = pagePaths[page];
  return loggedIn || !needsName.includes(page) ? path : loginPath(path);
}

export function loginPath(next: string): string {
  return `/login?${new URLSearchParams({ next })}`;
}

export function formPath(form: FormRef, back: string): string {
  return `/form/${form.id}?${new URLSearchParams({ ...form.about, _back: back })}`;
}

function renderButton(button: Button, place: Place): Html {
  const { action } = button;
  switch (action.kind) {
    case 'open':
      return html`<a class="button" id="${place.id}" data-tone="${button.tone}" href="${formPath(action.form, place.back)}">${button.label}</a>`;
    case 'show':
      return html`<a class="button" id="${place.id}" data-tone="${button.tone}" href="${showPath(action.page, place.loggedIn)}">${button.label}</a>`;
    case 'do':
      return html`<form method="post" action="/do">${boardFields(place)}<input type="hidden" name="_action" value="${encodeAction(action)}" /><button class="button" id="${place.id}" data-tone="${button.tone}">${button.label}</button></form>`;
  }
}

/** What every posted form of the board carries. */
export function boardFields({ newId, shift, back }: Pick<RenderContext, 'newId' | 'shift' | 'back'>): Html {
  return html`<input type="hidden" name="_command" value="${newId()}" autocomplete="off" /><input type="hidden" name="_shift" value="${shift ?? ''}" /><input type="hidden" name="_back" value="${back}" />`;
}

/** The blocks alone, for example over a form. */
export function renderBlockList(list: readonly Block[], id: string, context: RenderContext): readonly Html[] {
  return renderBlocks(list, { ...context, id, top: true, around: 'plain' });
}
