import { tokensOf } from '../../src/chat/cut.ts';
import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Line } from '../../src/message/message.ts';
import type { PersonId } from '../../src/model/id.ts';
import type { CardElement, Color, Mention, TextRun } from './render-card.ts';

/** What turns text into the platform's text. */
export interface TextOptions {
  /** Who is told by a mention; null for who is only named. */
  person(id: PersonId, name: string): { readonly id: string; readonly name: string } | null;
  readonly words: ChatWords;
}

/** A stretch of text; a mention is in one piece. */
export interface Run {
  readonly text: string;
  readonly strong: boolean;
  readonly mention?: Mention;
}

export interface TextLine {
  readonly runs: readonly Run[];
  readonly color?: Color;
}

/** Far below what a card holds: a longer line goes on in the next. */
export const MOST_LINE = 4000;

/**
 * Any text as one line that shows as written where nothing is read for marks: titles, labels, notifications, runs.
 * Two things are read even there: `{{DATE(…)}}` of the cards and, from memory, `<at>` of the platform.
 */
export function plainLine(text: string): string {
  return oneLine(text.replace(/[\p{Cs}\ue000\ue001]/gu, '\ufffd'));
}

const oneLine = (text: string): string =>
  text
    .replace(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .replace(/\{(?=\{)/g, '{\u200b')
    .replace(/<(?=\s*\/?\s*at\b)/gi, '＜');

// Not every client takes a backslash before a mark as an escape. Characters that look alike and mean nothing stand in.
const MARKS = [
  [/\*/g, '∗'],
  [/~/g, '∼'],
  [/`/g, 'ˋ'],
  [/(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, 'ˍ'],
  [/\\/g, '＼'],
  [/\](?=[([:])/g, ']\u200b'],
  [/<(?=[\p{L}/!?])/gu, '＜'],
  [/&(?=#?\w+;)/g, '＆'],
] as const;

/** The same for texts that are read for marks, such as headings and facts. Does not care for what begins the line. */
const unmarked = (text: string): string =>
  MARKS.reduce((out, [mark, other]) => out.replace(mark, other), oneLine(text));

/** Marks that begin a line would make a list, a heading, a quotation, code or a rule of it. */
function unstarted(text: string): string {
  const line = text.trimStart();
  if (/^(?:-\s*){3,}$|^=+\s*$/.test(line)) return line.replaceAll('-', '–').replaceAll('=', '＝');
  return line
    .replace(/^>/, '＞')
    .replace(/^#/, '＃')
    .replace(/^-(?=\s|$)/, '–')
    .replace(/^\+(?=\s|$)/, '＋')
    .replace(/^(\d+)(?=[.)](?:\s|$))/, '$1\u200b');
}

/** A text that stands alone where marks are read. */
export const markedLine = (text: string): string => unstarted(unmarked(plainLine(text)));

/** Gives each person of a message a text of their own: two with one name would be mixed up. */
export type Mentions = (mentioned: { readonly id: string; readonly name: string }) => Mention;

export function createMentions(): Mentions {
  const byText = new Map<string, string>();
  return ({ id, name }) => {
    const shown = unmarked(plainLine(name)).replace(/[<>]/g, '').trim() || '–';
    for (let at = 1; ; at += 1) {
      const text = `<at>${at === 1 ? shown : `${shown} ${at}`}</at>`;
      const taken = byText.get(text);
      if (taken !== undefined && taken !== id) continue;
      byText.set(text, id);
      return { type: 'mention', text, mentioned: { id, name: plainLine(name) } };
    }
  };
}

/** A line of a message with what stands in front of it. */
export function runsOf(line: Line, options: TextOptions, mentions: Mentions, prefix = ''): readonly Run[] {
  const runs = line.map((piece): Run => {
    if (typeof piece === 'string') return { text: plainLine(piece), strong: false };
    if (piece.kind === 'strong') return { text: plainLine(piece.text), strong: true };
    const mentioned = options.person(piece.id, piece.name);
    if (mentioned === null) return { text: plainLine(piece.name), strong: false };
    const mention = mentions(mentioned);
    return { text: mention.text, strong: false, mention };
  });
  return merged(prefix === '' ? runs : [{ text: plainLine(prefix), strong: false }, ...runs]);
}

/** Neighbours of one kind as one, and looked at once more: "<" and "at>" must not become a mention side by side. */
function merged(runs: readonly Run[]): readonly Run[] {
  const done: Run[] = [];
  for (const run of runs) {
    const last = done.at(-1);
    if (last && !last.mention && !run.mention && last.strong === run.strong)
      done.splice(-1, 1, { text: plainLine(last.text + run.text), strong: run.strong });
    else done.push(run);
  }
  return done;
}

export const isBlank = (runs: readonly Run[]): boolean => runs.every(({ text }) => text.trim() === '');

/** A line in as many as it needs. A blank one is none. */
export function brokenLines(line: TextLine): readonly TextLine[] {
  const size = (runs: readonly Run[]) => runs.reduce((sum, { text }) => sum + text.length, 0);
  if (isBlank(line.runs)) return [];
  if (size(line.runs) <= MOST_LINE) return [line];
  const lines: Run[][] = [[]];
  for (const run of line.runs)
    for (const text of run.mention ? [run.text] : tokensOf(run.text, MOST_LINE)) {
      const now = lines.at(-1) ?? [];
      const last = now.at(-1);
      if (size(now) + text.length > MOST_LINE) lines.push([{ ...run, text }]);
      else if (last && !last.mention && !run.mention && last.strong === run.strong)
        now.splice(-1, 1, { ...run, text: last.text + text });
      else now.push({ ...run, text });
    }
  return lines.filter((runs) => !isBlank(runs)).map((runs) => ({ ...line, runs }));
}

/** Marks are read only in a text with a mention; in all others every character shows as it is. */
export function lineElement({ runs, color }: TextLine): CardElement {
  const colored = color === undefined ? {} : { color };
  if (runs.some(({ mention }) => mention !== undefined))
    return { type: 'TextBlock', text: markedRuns(runs), wrap: true, ...colored };
  const inlines = runs
    .filter(({ text }) => text !== '')
    .map(({ text: whole, strong }): string | TextRun => {
      const text = breakable(whole);
      return strong || color !== undefined
        ? { type: 'TextRun', text, ...(strong ? { weight: 'Bolder' } : {}), ...colored }
        : text;
    });
  return { type: 'RichTextBlock', inlines };
}

/** An address without a blank may break after its marks: such a text is cut at the edge of the card otherwise. */
const breakable = (text: string): string =>
  text.replace(/\S{31,}/gu, (word) => word.replace(/(?<=[\p{L}\p{N}][/_.?&=])(?=[\p{L}\p{N}])/gu, '\u200b'));

// Stand-ins while a whole line is escaped; `plainLine` leaves none that was typed.
const BOLD = '\ue000';
const MENTION = '\ue001';

/** Runs as one text that is read for marks. Escaped as a whole: marks may come about where two runs meet. */
export function markedRuns(runs: readonly Run[]): string {
  const pieces = runs.map(({ text, mention }) => (mention ? MENTION : text));
  const line = pieces.map((text, at) =>
    runs[at]?.strong ? bold(text, pieces.slice(0, at).join(''), pieces.slice(at + 1).join('')) : text,
  );
  const mentions = runs.flatMap(({ mention }) => mention?.text ?? []);
  let next = 0;
  return unstarted(unmarked(line.join('')))
    .replaceAll(BOLD, '**')
    .replaceAll(MENTION, () => {
      next += 1;
      return mentions[next - 1] ?? '';
    });
}

/** In bold, where the marks would be taken as marks; else as it is. */
function bold(text: string, before: string, after: string): string {
  const inside = text.trim();
  const fits = /(^|[\s(])$/.test(before + (/^\s*/.exec(text)?.[0] ?? ''));
  const ends = /^($|[\s).,;:!?])/.test((/\s*$/.exec(text)?.[0] ?? '') + after);
  return inside === '' || !fits || !ends ? text : text.replace(inside, () => `${BOLD}${inside}${BOLD}`);
}
