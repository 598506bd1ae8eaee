import { packed } from '../../src/chat/pack.ts';
import { fill } from '../../src/chat/render-words.ts';
import type { Block, Fact } from '../../src/message/message.ts';
import { type ActionOptions, actionSets, toggle } from './render-actions.ts';
import type { CardElement, Mention } from './render-card.ts';
import { blockLines, type LineOptions, toneStyles } from './render-lines.ts';
import {
  brokenLines,
  isBlank,
  lineElement,
  markedLine,
  markedRuns,
  plainLine,
  runsOf,
  type TextLine,
} from './render-text.ts';

/** What stays together in one card. */
export interface Piece {
  readonly elements: readonly CardElement[];
  readonly mentions: readonly Mention[];
}

/** Numbers what folds in one message, all its parts included. */
export interface PieceOptions extends LineOptions, ActionOptions {
  nextFold(): number;
}

/** Characters of JSON in one piece; a card holds two of them and more. */
export const MOST_PIECE = 12_000;
const MOST_HEADING = 500;
const MOST_FACT = 1000;

export const pieceOf = (...elements: readonly CardElement[]): Piece => ({ elements, mentions: [] });

export const linePieces = (lines: readonly TextLine[]): readonly Piece[] =>
  lines.map((line) => ({
    elements: [lineElement(line)],
    mentions: line.runs.flatMap(({ mention }) => mention ?? []),
  }));

/** A text of our own or a title, as lines. */
export const textPieces = (text: string, strong = false): readonly Piece[] =>
  linePieces(brokenLines({ runs: [{ text: plainLine(text), strong }] }));

/** A heading keeps all its words: a very long one is bold text. */
export function headingPieces(text: string): readonly Piece[] {
  if (text.trim() === '' || text.length > MOST_HEADING) return textPieces(text, true);
  return [
    pieceOf({
      type: 'TextBlock',
      text: markedLine(text),
      wrap: true,
      style: 'heading',
      weight: 'Bolder',
      spacing: 'Medium',
    }),
  ];
}

/** The blocks of a message in order. A divider is a line above what follows it. */
export function piecesOf(blocks: readonly Block[], options: PieceOptions): readonly Piece[] {
  let divided = false;
  return blocks.flatMap((block) => {
    const [first, ...rest] = blockPieces(block, options);
    const line = divided && first !== undefined;
    divided = block.kind === 'divider' || (divided && first === undefined);
    if (!first) return [];
    return [line ? separated(first) : first, ...rest];
  });
}

function separated({ elements: [first, ...rest], mentions }: Piece): Piece {
  return { elements: first ? [{ ...first, separator: true, spacing: 'Medium' }, ...rest] : [], mentions };
}

function blockPieces(block: Block, options: PieceOptions): readonly Piece[] {
  switch (block.kind) {
    case 'heading':
      return headingPieces(block.text);
    case 'divider':
      return [];
    case 'buttons': {
      const { whole, sets } = actionSets(block.buttons, options);
      return [...whole.flatMap((label) => textPieces(label)), ...sets.map((set) => pieceOf(set))];
    }
    case 'more':
      return foldPieces(block.label, piecesOf(block.blocks, options), options);
    case 'below':
      return [...headingPieces(block.label), ...piecesOf(block.blocks, options)];
    case 'facts':
      return factPieces(block.facts, options);
    case 'note':
      return linePieces(blockLines(block, options)).map(({ elements, mentions }) => ({
        elements: [{ type: 'Container', style: toneStyles[block.tone], spacing: 'Small', items: elements }],
        mentions,
      }));
    case 'paragraph':
    case 'list':
    case 'countdown':
    case 'checklist':
    case 'timeline':
      return linePieces(blockLines(block, options));
  }
}

/** Behind a button that shows and hides it: in several folds where it is too long for one. */
export function foldPieces(
  label: string,
  pieces: readonly Piece[],
  options: Pick<PieceOptions, 'nextFold' | 'words'>,
): readonly Piece[] {
  const folds = pieces.length === 0 ? [[]] : packed(pieces, Number.POSITIVE_INFINITY, MOST_PIECE);
  return folds.flatMap((fold, at) => {
    const part = fill(options.words.part, { at: at + 1, of: folds.length });
    const mark = folds.length === 1 ? '' : ` (${part})`;
    const items = fold.flatMap(({ elements }) => elements);
    // Nothing is behind it: the label is still said.
    if (items.length === 0) return textPieces(`${label}${mark}`, true);
    const id = `fold-${options.nextFold()}`;
    const { whole, set } = toggle(label, id, options.words.show, mark);
    return [
      // Once for all of them: the others follow at once and have their number.
      ...(at > 0 ? [] : whole.flatMap((text) => textPieces(text))),
      {
        elements: [set, { type: 'Container', id, isVisible: false, style: 'emphasis', items }],
        mentions: fold.flatMap(({ mentions }) => mentions),
      },
    ];
  });
}

/** Beside a longer label a phone has no room for what it is about: the pairs run into each other. */
const MOST_LABEL = 22;

/** Facts as pairs; as lines where one is long or mentions somebody, whom a pair may not mention (from memory). */
function factPieces(facts: readonly Fact[], options: PieceOptions): readonly Piece[] {
  const runs = facts.map(({ value }) => runsOf(value, options, options.mentions));
  const pairs = facts.map(({ label }, at) => ({
    title: markedLine(label) || '–',
    value: markedRuns(runs[at] ?? []) || '–',
  }));
  const plain = runs.every((value) => value.every(({ mention }) => mention === undefined));
  const isLong = facts.some(({ label }) => label.length > MOST_LABEL);
  if (!plain || isLong || pairs.some(({ title, value }) => title.length + value.length > MOST_FACT))
    return linePieces(blockLines({ kind: 'facts', facts }, options));
  const said = pairs.filter((_, at) => (facts[at]?.label ?? '').trim() !== '' || !isBlank(runs[at] ?? []));
  return packed(said, Number.POSITIVE_INFINITY, MOST_PIECE).map((set) =>
    pieceOf({ type: 'FactSet', facts: set }),
  );
}
