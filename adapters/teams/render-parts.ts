import { MOST_ACTIVITY, OWN_ACTIVITY } from './limits.ts';
import type { Piece } from './render-pieces.ts';

/**
 * Room in one of several parts for all but its pieces: the summary twice and its repetition, each at most 1000 characters
 * before quotes are escaped, and the marks of the part.
 */
const OWN_SIZE = 7000;
const MOST_BODY = MOST_ACTIVITY - OWN_ACTIVITY - OWN_SIZE;

const sizeOf = (pieces: readonly Piece[]): number => JSON.stringify(pieces).length;

/** Pieces in as few cards as hold them, when one does not. Each has at least one. */
export function partsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const parts: (readonly Piece[])[] = [];
  let from = 0;
  while (from < pieces.length) {
    let to = from + 1;
    let size = sizeOf(pieces.slice(from, to));
    for (; to < pieces.length; to += 1) {
      size += sizeOf(pieces.slice(to, to + 1));
      if (size > MOST_BODY) break;
    }
    const end = to < pieces.length ? goodBreak(pieces, from, to) : to;
    parts.push(pieces.slice(from, end));
    from = end;
  }
  return parts;
}

/** Buttons stay with what they are about, a heading with what it is over, where that leaves anything before. */
function goodBreak(pieces: readonly Piece[], from: number, to: number): number {
  const bad = (at: number) => {
    const before = pieces[at - 1]?.elements.at(-1);
    const heading = before?.type === 'TextBlock' && before.style === 'heading';
    return heading || pieces[at]?.elements[0]?.type === 'ActionSet';
  };
  let at = to;
  while (at > from + 1 && bad(at)) at -= 1;
  return bad(at) ? to : at;
}
