import type { KnownBlock } from '@slack/types';
import { fill } from '../../src/chat/render-words.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { withoutSummary } from '../../src/message/without-summary.ts';
import { limits } from './limits.ts';
import { tonePrefix, toneText } from './render-lines.ts';
import { fallbackText, joined, partsOf } from './render-parts.ts';
import {
  headingPieces,
  type Piece,
  type PieceOptions,
  piecesOf,
  sectionBlock,
  sections,
} from './render-pieces.ts';
import { bold, escapeText, type TextLine, type TextOptions, textLines, unquoted } from './render-text.ts';
import { cutText } from './split.ts';

/** One message of the platform. */
export interface SlackPart {
  /** At most 4000 characters: what must be done, with wall-clock times, for where no blocks are shown. */
  readonly text: string;
  readonly blocks: KnownBlock[];
  /** Detail that belongs into the thread under the first part. */
  readonly thread: boolean;
}

export interface RenderOptions extends TextOptions {
  /** Different for each update of the message: the platform wants new block ids then. */
  readonly revision: string;
  /** Detail that may be one tap away: where it stands, or in parts of its own for the thread (`button`). */
  readonly more: 'inline' | 'button';
}

/** Of a notification as much may be summary; of a later part, which only says what it belongs to, less. */
const MOST_SUMMARY = 3500;
const MOST_REPEATED = 1500;
const MOST_REVISION = limits.blockId.most - 20;

/**
 * A message as one or more messages of the platform, first the one to post in the channel. No word is dropped: what
 * does not fit goes on in the next part. Throws RangeError for a button or a revision that the platform cannot take.
 */
export function renderMessage(message: Message, options: RenderOptions): readonly SlackPart[] {
  let action = -1;
  const counted: PieceOptions = {
    person: options.person,
    when: options.when,
    words: options.words,
    nextAction: () => {
      action += 1;
      return action;
    },
  };
  const body = withoutSummary(message);
  const folded =
    options.more === 'button' ? body.filter((block) => block.kind === 'more' || block.kind === 'below') : [];
  // A number leads from one to the other; in the thread the heading it stood under says what "More on this" is about.
  const labels = new Map(
    folded.map((block, at) => [block, folded.length === 1 ? block.label : `[${at + 1}] ${block.label}`]),
  );
  const shown = body.map((block): Block => {
    const label = block.kind === 'more' || block.kind === 'below' ? labels.get(block) : undefined;
    if (label === undefined) return block;
    return { kind: 'paragraph', line: [{ kind: 'strong', text: label }, ` (${options.words.inThread})`] };
  });
  const main = [...summaryPieces(message, options), ...piecesOf(shown, counted)];
  const thread = folded.flatMap((block) => [
    ...headingPieces(
      [labels.get(block) ?? block.label, block.kind === 'more' ? headingOver(body, block) : '']
        .filter(Boolean)
        .join(': '),
    ),
    ...piecesOf(block.blocks, counted),
  ]);
  return [
    ...slackParts(message, main, options, 'm'),
    ...(thread.length === 0 ? [] : slackParts(message, thread, options, 't')),
  ];
}

/** A message as the blocks of one page, which cannot go on in a second message: nothing marks a part. */
export function renderPage(message: Message, options: Omit<RenderOptions, 'more'>): readonly KnownBlock[] {
  let action = -1;
  const counted: PieceOptions = {
    ...options,
    nextAction: () => {
      action += 1;
      return action;
    },
  };
  const body = piecesOf(withoutSummary(message), counted);
  const pieces = [...summaryPieces(message, options), ...body];
  const shown = pieces.length > limits.blocksInModal.most ? joined(pieces) : pieces;
  return shown.map(({ block }, index) => ({ ...block, block_id: blockId(options.revision, 'p', 0, index) }));
}

/** The heading that a block stands under; '' when there is none. */
function headingOver(body: readonly Block[], block: Block): string {
  const over = body.slice(0, body.indexOf(block)).findLast(({ kind }) => kind === 'heading');
  return over?.kind === 'heading' ? over.text : '';
}

function summaryPieces({ summary, tone }: Message, { words }: TextOptions): readonly Piece[] {
  const plain = `${tonePrefix(tone, words)}${escapeText(summary)}`;
  const lines = textLines(bold(plain), plain, 'first');
  return sections(lines.length > 0 ? lines : textLines('–', '–', 'first'));
}

function slackParts(
  message: Message,
  pieces: readonly Piece[],
  options: RenderOptions,
  place: string,
): readonly SlackPart[] {
  const { words } = options;
  const thread = place !== 'm';
  const parts = partsOf(pieces);
  const whole = message.summary.trim() === '' ? '–' : unquoted(escapeText(message.summary));
  const summary = cutText(whole, MOST_SUMMARY);
  const tone = toneText(message.tone, words);
  const mark = (at: number) => escapeText(fill(words.part, { at: at + 1, of: parts.length }));
  return parts.map((part, at): SlackPart => {
    const first = [summary, ...(tone === '' ? [] : [tone]), ...(parts.length > 1 ? [mark(at)] : [])];
    // The first part stands for the whole message; a summary that stands whole at the start is said once.
    const said = thread || summary !== whole ? 0 : summaryPieces(message, options).flatMap(linesIn).length;
    const lines = at > 0 ? part.flatMap(linesIn) : parts.flat().flatMap(linesIn).slice(said);
    const blocks: KnownBlock[] = [
      ...(at > 0 ? [sectionBlock(`${bold(cutText(whole, MOST_REPEATED))} (${mark(at)})`)] : []),
      ...part.map(({ block }) => block),
      ...(at < parts.length - 1 ? [partMark(mark(at))] : []),
    ];
    return {
      text: fallbackText(first, lines, escapeText(words.restInMessage)),
      blocks: blocks.map((block, index) => ({
        ...block,
        block_id: blockId(options.revision, place, at, index),
      })),
      thread,
    };
  });
}

const linesIn = ({ lines }: Piece): readonly TextLine[] => lines;

const partMark = (text: string): KnownBlock => ({
  type: 'context',
  elements: [{ type: 'mrkdwn', text, verbatim: true }],
});

function blockId(revision: string, place: string, part: number, index: number): string {
  if (revision !== '' && revision.length <= MOST_REVISION) return `${revision}:${place}${part}:${index}`;
  throw new RangeError(
    `The revision of a message must have 1 to ${MOST_REVISION} characters; this one has ${revision.length}.`,
  );
}
