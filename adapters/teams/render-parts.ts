import { cutIntoParts } from '../../src/chat/pack.ts';
import { MOST_ACTIVITY, OWN_ACTIVITY } from './limits.ts';
import type { Piece } from './render-pieces.ts';

/**
 * Room in one of several parts for all but its pieces: the summary twice and its repetition, each at most 1000 characters
 * before quotes are escaped, and the marks of the part.
 */
const OWN_SIZE = 7000;
const MOST_BODY = MOST_ACTIVITY - OWN_ACTIVITY - OWN_SIZE;

/** Pieces in as few cards as hold them, when one does not. Each has at least one. */
export function partsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  return cutIntoParts(pieces, {
    count: Number.POSITIVE_INFINITY,
    size: MOST_BODY,
    sizeOf: (piece) => JSON.stringify([piece]).length,
    // Buttons stay with what they are about, a heading with what it is over.
    together: (before, piece) => {
      const last = before?.elements.at(-1);
      const heading = last?.type === 'TextBlock' && last.style === 'heading';
      return heading || piece?.elements[0]?.type === 'ActionSet';
    },
  });
}
