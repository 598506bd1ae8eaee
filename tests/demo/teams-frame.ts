import { type Dict, text } from '../peers/slack/json.ts';
import type { DialogState, MessageState } from '../peers/teams/types.ts';
import { escapeHtml } from '../slack/picture.ts';
import { cardSlot, cardStyle, drawCards } from '../teams/picture.ts';
import { palettes, type Theme } from '../teams/picture-look.ts';
import type { Look, Width } from './shots.ts';

export interface Shown {
  /** By the platform's id; undefined for Potbell. */
  nameOf(member: string): string | undefined;
  /** The wall clock of an instant. */
  clock(ms: number): string;
}

/** One message with who said it and when, in a plain frame, and what a locked phone may show of it. */
export function messageHtml(message: MessageState, { nameOf, clock }: Shown): string {
  const { from, id, edited, thread, card } = message;
  const name = nameOf(from);
  const notes = [clock(Number(id)), ...(edited ? ['edited'] : [])].join(' · ');
  const push =
    name === undefined
      ? `<p class="push">On a locked phone: ${escapeHtml(text(message.activity.summary))}</p>`
      : '';
  const words = message.text.replace(/<[^>]*>/g, '');
  const body = card === null ? `<p>${escapeHtml(words)}</p>` : cardSlot(card);
  return `${push}<article class="message${thread === null || thread === id ? '' : ' reply'}">
<p class="who"><b>${escapeHtml(name ?? 'Potbell (app)')}</b> ${escapeHtml(notes)}</p>${body}</article>`;
}

/** A dialog: its title and its card. */
export const dialogHtml = ({ title, card }: Pick<DialogState, 'title'> & { card: Dict }): string =>
  `<section class="view"><h2>${escapeHtml(title)}</h2>${cardSlot(card)}</section>`;

const themes: Readonly<Record<Width, Theme>> = { phone: 'dark', wide: 'light' };

function frameStyle(theme: Theme): string {
  const { page, text: ink, quiet, line } = palettes[theme];
  return `
body{padding:0;background:${page};color:${ink}} main{padding:12px}
header{font-weight:bold;padding:8px 12px;border-bottom:1px solid ${line}} header small{font-weight:normal;display:block}
.message{padding:8px 0;border-top:1px solid ${line}} .who,.push{margin:0 0 4px;color:${quiet};font-size:13px} .who b{color:${ink}}
.reply{margin-left:10px;padding-left:8px;border-left:3px solid ${line}} .push{border:1px dashed ${line};padding:6px}
.view{max-width:640px} .view h2{margin:0 0 8px;font-size:16px}`;
}

/** A phone in dark, a wide screen in light; what the renderer of the cards complains about is an error. */
export const look: Look = {
  drawnBy: 'Drawn by the official renderer of the cards with colours and sizes of our own',
  page: (title, note, body, width) =>
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${escapeHtml(title)}</title>
<style>${cardStyle(themes[width])}${frameStyle(themes[width])}</style></head><body><header>${escapeHtml(title)}<small>${escapeHtml(note)}</small></header>
<main>${body}</main></body></html>`,
  async draw(page, width) {
    const wrong = await drawCards(page, themes[width]);
    if (wrong.length > 0) throw new Error(`${await page.title()}: ${wrong.join('; ')}`);
  },
};
