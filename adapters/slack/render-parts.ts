import type { KnownBlock } from '@slack/types';
import { cutIntoParts } from '../../src/chat/pack.ts';
import { limits } from './limits.ts';
import { type Piece, sectionBlock } from './render-pieces.ts';
import { MOST_LINE, type TextLine } from './render-text.ts';

/** Room for the line that names the part at its start and the mark at its end. */
const OWN_BLOCKS = 2;
const OWN_SIZE = 2500;

/** Pieces in as few messages as the platform takes. Each has at least one. */
export function partsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const most = limits.blocksInMessage.most;
  if (pieces.length <= most && sizeOf(pieces) <= limits.messageBlocks.most) return [pieces];
  const merged = joined(pieces);
  if (merged.length <= most && sizeOf(merged) <= limits.messageBlocks.most) return [merged];
  return cutIntoParts(merged, {
    count: most - OWN_BLOCKS,
    size: limits.messageBlocks.most - OWN_SIZE,
    sizeOf: (piece) => sizeOf([piece]),
    // Buttons stay with what they are about, a heading with what it is over.
    together: (before, piece) =>
      piece?.block.type === 'actions' || before?.block.type === 'header' || before?.block.type === 'divider',
  });
}

const sizeOf = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, { block }) => sum + JSON.stringify(block).length, 0);

/** Neighbouring sections as one, as far as a section holds them: what is short of blocks is not short of text. */
export function joined(pieces: readonly Piece[]): readonly Piece[] {
  const done: Piece[] = [];
  for (const piece of pieces) {
    const last = done.at(-1);
    const before = last ? sectionText(last.block) : null;
    const text = sectionText(piece.block);
    const both = before === null || text === null ? null : `${before}\n${text}`;
    if (last && both !== null && both.length <= MOST_LINE)
      done.splice(-1, 1, { block: sectionBlock(both), lines: [...last.lines, ...piece.lines] });
    else done.push(piece);
  }
  return done;
}

function sectionText(block: KnownBlock): string | null {
  return block.type === 'section' && block.text ? block.text.text : null;
}

/**
 * The text for notifications, screen readers and clients that show no blocks. Begins with `first`. When it cannot hold
 * everything, what must be done and every wall-clock time come before the rest, in their order, and it says so.
 */
export function fallbackText(first: readonly string[], lines: readonly TextLine[], rest: string): string {
  const most = limits.messageText.most;
  const whole = [...first, ...lines.map(({ plain }) => plain)].join('\n');
  if (whole.length <= most) return whole;
  const chosen = new Set<TextLine>();
  let room = most - first.join('\n').length - rest.length - 1;
  for (const rank of ['first', 'next', 'rest'])
    for (const line of lines) {
      if (line.rank !== rank || line.plain.length + 1 > room) continue;
      chosen.add(line);
      room -= line.plain.length + 1;
    }
  return [...first, ...lines.filter((line) => chosen.has(line)).map(({ plain }) => plain), rest].join('\n');
}
