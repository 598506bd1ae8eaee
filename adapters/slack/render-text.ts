import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Line } from '../../src/message/message.ts';
import type { PersonId } from '../../src/model/id.ts';
import type { Instant } from '../../src/model/time.ts';
import { limits } from './limits.ts';
import { splitText } from './split.ts';

/** What turns text into the platform's markup. */
export interface TextOptions {
  /** A mention `<@U…>` of somebody who is linked, else the name as it is. */
  person(id: PersonId, name: string): string;
  /** The time to print: the wall clock, or a date mark `<!date^…|…>` of the platform. */
  when(to: Instant, clock: string): string;
  readonly words: ChatWords;
}

/** Where room is short: what is urgent or can be pressed, what else must be done and when, everything else. */
export type Rank = 'first' | 'next' | 'rest';

/** One line: with bold marks for a block, without them for a notification. */
export interface TextLine {
  readonly text: string;
  readonly plain: string;
  readonly rank: Rank;
}

/** A section holds at most this; a little below the limit, so that a mark in front of a line always fits. */
export const MOST_LINE = limits.sectionText.most - 100;

// Formatting marks cannot be escaped, and a pair of them would vanish or strike out what somebody wrote. Characters
// that look alike and mean nothing to the platform stand in for them. From memory: an underscore inside a word is none.
const MARKS = [
  [/\*/g, '∗'],
  [/~/g, '∼'],
  [/`/g, 'ˋ'],
  [/(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, 'ˍ'],
  // The name of a picture between colons, such as ":ok:"; clock times have no letters.
  [/:(100|1234|[+-]1|[a-z0-9_+'-]*[a-z][a-z0-9_+'-]*):/g, '∶$1∶'],
] as const;

/** Any text as one line that shows as written and mentions nobody: `& < >` escaped, nothing else. */
export function escapeText(text: string): string {
  const escaped = text
    .replace(/[\r\n\v\f\u2028\u2029]+/g, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;');
  return MARKS.reduce((out, [mark, other]) => out.replace(mark, other), escaped);
}

/** A mention only when `person` made it one: a name that looks like a mention stays a name. */
export function personText(id: PersonId, name: string, { person }: TextOptions): string {
  const shown = person(id, name);
  return shown !== name && /^<@[A-Z0-9]+>$/.test(shown) ? shown : escapeText(shown);
}

/** The wall clock is always printed, also beside the platform's own date mark, which shows the reader's zone. */
export function whenText(to: Instant, clock: string, { when }: TextOptions): string {
  const shown = when(to, clock);
  const dateMark = /^<!date\^\d+\^[^<>|]+\|[^<>]*>$/.test(shown);
  if (!dateMark && shown.includes(clock)) return escapeText(shown);
  const text = dateMark ? shown : escapeText(shown);
  return text.trim() === '' ? escapeText(clock) : `${escapeText(clock)} (${text})`;
}

/** Escaped text in bold, where the platform would take the marks as marks; else as it is. */
export function bold(escaped: string, before = '', after = ''): string {
  const inside = escaped.trim();
  const fits = /(^|[\s(])$/.test(before + (/^\s*/.exec(escaped)?.[0] ?? ''));
  const ends = /^($|[\s).,;:!?])/.test((/\s*$/.exec(escaped)?.[0] ?? '') + after);
  return inside === '' || !fits || !ends ? escaped : escaped.replace(inside, () => `*${inside}*`);
}

/** A line of a message with what stands in front of it, in as many lines as it needs. Blank lines are none. */
export function linesOf(line: Line, options: TextOptions, rank: Rank, prefix = ''): readonly TextLine[] {
  const pieces = line.map((piece) => {
    if (typeof piece === 'string') return { text: escapeText(piece), strong: false };
    return piece.kind === 'strong'
      ? { text: escapeText(piece.text), strong: true }
      : { text: personText(piece.id, piece.name, options), strong: false };
  });
  const plain = (from: number, to?: number) =>
    pieces
      .slice(from, to)
      .map(({ text }) => text)
      .join('');
  const text = pieces.map((piece, at) =>
    piece.strong ? bold(piece.text, prefix + plain(0, at), plain(at + 1)) : piece.text,
  );
  return textLines(prefix + text.join(''), prefix + plain(0), rank);
}

/** Escaped text as lines. One too long for a section goes on in the next line, without bold: marks cannot span two. */
export function textLines(text: string, plain: string, rank: Rank): readonly TextLine[] {
  if (plain.trim() === '') return [];
  if (text.length <= MOST_LINE) return [{ text: unquoted(text), plain: unquoted(plain), rank }];
  return splitText(plain, MOST_LINE).map((piece) => ({
    text: unquoted(piece),
    plain: unquoted(piece),
    rank,
  }));
}

/** From memory: a ">" that begins a line makes it a quotation, escaped or not, and is gone. "> 85 %" must not read "85 %". */
export function unquoted(text: string): string {
  return text.replace(/^(\s*)&gt;/, '$1＞');
}
