import { createHash } from 'node:crypto';
import { html } from 'hono/html';
import type { Block, Inline, Line, Message, Tone } from '../../src/message/message.ts';
import type { Panel } from '../../src/views/pages.ts';
import { type Html, type Place, type RenderContext, renderBlocks, toneMark } from './render-html.ts';

export interface MessageLook {
  readonly kind?: string;
  /** A short name over the message; without it the message's own first heading, or its summary, names it. */
  readonly title?: string;
  readonly tone?: Tone;
}

/** A message as one panel. Its summary is shown unless the title or the blocks say the same. */
export function renderMessage(
  message: Message,
  id: string,
  context: RenderContext,
  look: MessageLook = {},
): Html {
  const { summary } = message;
  const { kind = 'panel', title, tone = message.tone } = look;
  const blocks = message.blocks.filter((block) => block.kind !== 'heading' || block.text !== title);
  const headingAt = blocks.findIndex((block) => block.kind === 'heading');
  const named =
    title !== undefined
      ? html`aria-labelledby="${id}-title"`
      : headingAt >= 0
        ? html`aria-labelledby="${id}-${headingAt}"`
        : html`aria-label="${summary}"`;
  const text = summary.startsWith(`${title}: `) ? summary.slice(`${title}: `.length) : summary;
  const shown = summary === title || blocks.some((block) => says(block, text));
  const long = blocks.filter((block) => block.kind === 'heading').length >= LONG;
  const mark = toneMark(tone, context.words);
  const place: Place = { ...context, id, top: title === undefined, around: tone };
  return html`<section class="${kind}${long ? ' long' : ''}" id="${id}" data-tone="${tone}" data-v="${version(message, look, context)}" ${named}>
    ${mark === '' ? '' : html`<p class="tone-row">${mark}</p>`}
    ${title === undefined ? '' : html`<h2 id="${id}-title">${title}</h2>`}
    ${shown ? '' : html`<p class="summary">${summary}</p>`}
    ${long ? renderParts(blocks, place) : renderBlocks(blocks, place)}
  </section>`;
}

/** From this many headings on, a message is laid out as parts side by side where the screen has room. */
const LONG = 3;

/** Each heading with what belongs to it as one part, in order; notes and buttons at the very end belong to all. */
function renderParts(blocks: readonly Block[], place: Place): Html {
  const shown = renderBlocks(blocks, place);
  const tail = blocks.findLastIndex((block) => block.kind !== 'note' && block.kind !== 'buttons') + 1;
  const starts = blocks.flatMap((block, at) => (block.kind === 'heading' ? [at] : []));
  // A heading right over another is a title for all that follows.
  while (starts[1] === (starts[0] ?? -1) + 1) starts.shift();
  const parts = starts.map((from, at) => shown.slice(from, Math.min(starts[at + 1] ?? tail, tail)));
  return html`${shown.slice(0, starts[0])}<div class="parts">${parts.map((part) => html`<div class="part">${part}</div>`)}</div>${shown.slice(tail)}`;
}

function says(block: Block, text: string): boolean {
  switch (block.kind) {
    case 'heading':
      return block.text.includes(text);
    case 'paragraph':
    case 'note':
      return lineText(block.line).includes(text);
    case 'list':
    case 'checklist':
      return block.items.some((item) => lineText('line' in item ? item.line : item).includes(text));
    case 'facts':
    case 'countdown':
    case 'timeline':
    case 'more':
    case 'below':
    case 'divider':
    case 'buttons':
      return false;
  }
}

const lineText = (line: Line) => line.map(plainText).join('');

function plainText(inline: Inline): string {
  if (typeof inline === 'string') return inline;
  return inline.kind === 'strong' ? inline.text : inline.name;
}

export function renderPanel({ id, tone, title, message }: Panel, context: RenderContext): Html {
  return renderMessage(message, panelId(id), context, { tone, title });
}

/** A bell has no title: what it says is what matters. */
export function renderBell({ id, tone, message }: Panel, context: RenderContext): Html {
  return renderMessage(message, panelId(id), context, { tone });
}

export const panelId = (id: string) => `p-${id.replace(/[^\w-]/g, '-')}`;

/** Changes when the panel says something else, and not with every fresh button id: unchanged panels stay untouched. */
function version(message: Message, look: MessageLook, context: RenderContext): string {
  const { shift, back, loggedIn } = context;
  const what = JSON.stringify([message, look, shift, back, loggedIn, context.words.toneDanger]);
  return createHash('sha256').update(what).digest('base64url').slice(0, 16);
}
