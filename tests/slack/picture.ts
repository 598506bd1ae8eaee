import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { type Block, Message } from 'slack-blocks-to-jsx';
import { z } from 'zod';
import { type Dict, isDict, label, text } from '../peers/slack/json.ts';
import type { MessageState, ViewState } from '../peers/slack/types.ts';
import { drawable, type NameOf } from './picture-blocks.ts';

/** The library's own look for blocks. */
export const blockStyle = (): string =>
  readFileSync(createRequire(import.meta.url).resolve('slack-blocks-to-jsx/dist/style.css'), 'utf8');

export const escapeHtml = (words: string): string =>
  words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

const drawn = ['header', 'section', 'divider', 'actions', 'context', 'input'];
/** The library draws a block it does not know empty, without a word; here that is an error. */
const blocksSchema = z.array(
  z.custom<Block>(
    (block) => isDict(block) && drawn.includes(text(block.type)),
    `Pictures know ${drawn.join(', ')}: look how the library draws another block, then add it in picture.ts.`,
  ),
);

/** Blocks of a message or view as the library draws them. */
export function blocksHtml(
  blocks: readonly Dict[],
  nameOf: NameOf,
  errors: ViewState['errors'] = {},
): string {
  const html = renderToStaticMarkup(
    createElement(Message, {
      blocks: blocksSchema.parse(drawable(blocks, errors)),
      logo: 'data:,',
      name: '',
      theme: 'light',
      withoutWrapper: true,
      hooks: { user: ({ id }: { id: string }) => `@${nameOf(id)}` },
    }),
  );
  // The library's own advice under a text field; the platform gives none.
  return html.replaceAll('<p>↵ Please &#x27;enter&#x27; to submit</p>', '');
}

export interface Shown {
  readonly nameOf: NameOf;
  /** The wall clock of an instant. */
  clock(ms: number): string;
}

/** One message with who said it and when, in a plain frame. `reply`: it stands in a thread. */
export function messageHtml(message: MessageState, shown: Shown): string {
  const { nameOf, clock } = shown;
  const who = message.botId === null ? nameOf(message.user) : 'Potbell (app)';
  const notes = [
    clock(Number(message.ts) * 1000),
    ...(message.edited ? ['edited'] : []),
    ...(message.ephemeralTo === null ? [] : [`only ${nameOf(message.ephemeralTo)} sees this`]),
  ];
  const files = message.files.map(({ title }) => `<p class="file">File: ${escapeHtml(title)}</p>`);
  const body =
    message.blocks.length > 0 ? blocksHtml(message.blocks, nameOf) : `<p>${escapeHtml(message.text)}</p>`;
  const kind = message.ephemeralTo === null ? '' : ' alone';
  return `<article class="message${message.threadTs === null ? '' : ' reply'}${kind}">
<p class="who"><b>${escapeHtml(who)}</b> ${escapeHtml(notes.join(' · '))}</p>${body}${files.join('')}</article>`;
}

/** A sheet or a Home: title, what is in it, and the buttons at its foot, in a plain frame. */
export function viewHtml(
  view: Dict,
  title: string,
  nameOf: NameOf,
  errors: ViewState['errors'] = {},
): string {
  const blocks = Array.isArray(view.blocks) ? view.blocks.filter(isDict) : [];
  const foot = [view.close, view.submit]
    .map((one, at) => ({ words: label(one), kind: at === 1 ? 'submit' : 'close' }))
    .filter(({ words }) => words !== '')
    .map(({ words, kind }) => `<span class="${kind}">${escapeHtml(words)}</span>`);
  return `<section class="view"><h2>${escapeHtml(label(view.title) || title)}</h2>
${blocksHtml(blocks, nameOf, errors)}${foot.length === 0 ? '' : `<p class="foot">${foot.join(' ')}</p>`}</section>`;
}

/** What a phone is pushed before anything is opened: the start of the message's plain text. */
export function pushHtml(words: string): string {
  const shown = words.replaceAll('<!channel>', '@channel');
  return `<p class="push">On a locked phone: ${escapeHtml(shown.slice(0, 150))}${shown.length > 150 ? '…' : ''}</p>`;
}

const own = `
*{box-sizing:border-box} body{margin:0;background:#fff;color:#1d1c1d;font:15px/1.45 'Liberation Sans',Arial,sans-serif}
main{padding:12px} header{font-weight:bold;padding:8px 12px;background:#e8e8e8;border-bottom:1px solid #999}
header small{font-weight:normal;display:block} .message{padding:8px 0;border-top:1px solid #ddd}
.message .who,.file,.push{margin:0 0 4px;color:#555;font-size:13px} .message .who b{color:#1d1c1d}
.reply{margin-left:12px;padding-left:10px;border-left:3px solid #ccc} .alone{background:#f6f6f6}
.push{border:1px dashed #999;padding:6px} .view{border:1px solid #777;padding:10px;max-width:620px}
.view h2{margin:-10px -10px 8px;padding:8px 10px;background:#e8e8e8;font-size:16px} .foot{text-align:right;margin:14px 0 0}
.foot span{display:inline-block;border:1px solid #777;padding:6px 12px} .foot .submit{background:#333;color:#fff}
#slack_blocks_to_jsx p{margin:0}`;

/** A page to take a picture of. */
export function pageHtml(title: string, note: string, body: string): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${escapeHtml(title)}</title>
<style>${blockStyle()}${own}</style></head><body><header>${escapeHtml(title)}<small>${escapeHtml(note)}</small></header>
<main>${body}</main></body></html>`;
}
