import type {
  ActionsBlock,
  KnownBlock,
  PlainTextElement,
  SectionBlock,
  Button as SlackButton,
} from '@slack/types';
import { packLines } from '../../src/chat/pack.ts';
import { encodeAction } from '../../src/message/action.ts';
import type { Block, Button } from '../../src/message/message.ts';
import { limits } from './limits.ts';
import { blockLines } from './render-lines.ts';
import {
  bold,
  escapeText,
  MOST_LINE,
  type Rank,
  type TextLine,
  type TextOptions,
  textLines,
} from './render-text.ts';
import { shortened } from './split.ts';

/** One block of the platform and what it says as text. */
export interface Piece {
  readonly block: KnownBlock;
  readonly lines: readonly TextLine[];
}

/** Numbers the buttons of one message, all its parts included. */
export interface PieceOptions extends TextOptions {
  nextAction(): number;
}

/** A thumb in a glove finds the fifth button in a row, hardly a sixth. */
const BUTTONS_A_ROW = 5;

export const plainText = (text: string): PlainTextElement => ({ type: 'plain_text', text, emoji: false });

/** `verbatim`: nothing typed becomes a mention or a link by itself. `expand`: nothing hides behind "see more". */
export function sectionBlock(text: string): SectionBlock {
  return { type: 'section', expand: true, text: { type: 'mrkdwn', text, verbatim: true } };
}

/** Lines in as few sections as hold them. */
export function sections(lines: readonly TextLine[]): readonly Piece[] {
  return packLines(lines, MOST_LINE).map((pack) => ({
    block: sectionBlock(pack.map(({ text }) => text).join('\n')),
    lines: pack,
  }));
}

export const boldLines = (text: string, rank: Rank): readonly TextLine[] =>
  textLines(bold(escapeText(text)), escapeText(text), rank);

/** A heading keeps all its words: one too long for the platform's own heading is bold text. */
export function headingPieces(text: string): readonly Piece[] {
  const lines = boldLines(text, 'next');
  if (lines.length === 0 || text.length > limits.headerText.most) return sections(lines);
  return [{ block: { type: 'header', text: plainText(text) }, lines }];
}

/** The blocks of a message in order. `more` is put where it stands, behind its label in bold. */
export function piecesOf(blocks: readonly Block[], options: PieceOptions): readonly Piece[] {
  return blocks.flatMap((block) => blockPieces(block, options));
}

function blockPieces(block: Block, options: PieceOptions): readonly Piece[] {
  switch (block.kind) {
    case 'heading':
      return headingPieces(block.text);
    case 'divider':
      return [{ block: { type: 'divider' }, lines: [] }];
    case 'buttons':
      return buttonPieces(block.buttons, options);
    case 'more':
      return [
        ...sections(boldLines(`${block.label}:`, 'rest')),
        ...piecesOf(block.blocks, options).map(seldomNeeded),
      ];
    case 'below':
      return [...headingPieces(block.label), ...piecesOf(block.blocks, options)];
    case 'paragraph':
    case 'list':
    case 'facts':
    case 'note':
    case 'countdown':
    case 'checklist':
    case 'timeline':
      return sections(blockLines(block, options));
  }
}

const seldomNeeded = ({ block, lines }: Piece): Piece => ({
  block,
  lines: lines.map((line) => ({ ...line, rank: 'rest' })),
});

/** Rows of buttons. Labels that do not fit stand whole above their row, under the number on the button. */
function buttonPieces(buttons: readonly Button[], options: PieceOptions): readonly Piece[] {
  const { short, whole } = shortened(
    buttons.map(({ label }) => label),
    limits.buttonText.most,
  );
  const elements = buttons.map((button, at) => buttonElement(button, short[at] ?? '–', options));
  const rows = Array.from({ length: Math.ceil(elements.length / BUTTONS_A_ROW) }, (_, row) =>
    elements.slice(row * BUTTONS_A_ROW, (row + 1) * BUTTONS_A_ROW),
  );
  return [
    ...sections(whole.flatMap((label) => textLines(escapeText(label), escapeText(label), 'first'))),
    ...rows.map((row): Piece => {
      const block: ActionsBlock = { type: 'actions', elements: row };
      const labels = row.map(({ text }) => `[${escapeText(text.text)}]`).join(' ');
      return { block, lines: textLines(labels, labels, 'first') };
    }),
  ];
}

function buttonElement({ label, tone, action }: Button, text: string, options: PieceOptions): SlackButton {
  const value = encodeAction(action);
  if (value.length > limits.buttonValue.most)
    throw new RangeError(
      `The button "${label}" (${action.kind}) carries ${value.length} characters; the chat platform takes at most ` +
        `${limits.buttonValue.most}. Put an id into its action instead of the text itself.`,
    );
  const style = { main: 'primary', plain: null, danger: 'danger' } as const;
  const chosen = style[tone];
  return {
    type: 'button',
    action_id: `${action.kind}:${options.nextAction()}`,
    text: plainText(text),
    value,
    ...(chosen === null ? {} : { style: chosen }),
  };
}
