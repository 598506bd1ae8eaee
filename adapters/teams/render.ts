import { cutText } from '../../src/chat/cut.ts';
import { fill } from '../../src/chat/render-words.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { withoutSummary } from '../../src/message/without-summary.ts';
import { CARD_VERSION, MOST_ACTIVITY, OWN_ACTIVITY } from './limits.ts';
import type { ActionOptions } from './render-actions.ts';
import { activitySize, type Card, type CardElement } from './render-card.ts';
import { toneColors, tonePrefix, toneStyles } from './render-lines.ts';
import { partsOf } from './render-parts.ts';
import { type Piece, type PieceOptions, pieceOf, piecesOf, textPieces } from './render-pieces.ts';
import { createMentions, markedLine, plainLine, type TextOptions } from './render-text.ts';

/** One message of the platform: the card alone makes an activity (`activityOf`). */
export interface TeamsPart {
  /** Belongs under the first part: into its thread where the conversation has threads. */
  readonly thread: boolean;
  /** The notification. */
  readonly summary: string;
  readonly card: Card;
}

export interface RenderOptions extends TextOptions, ActionOptions {}

const MOST_SUMMARY = 1000;
/** A longer summary is no heading: it goes on line by line. */
const MOST_TITLE = 500;

/**
 * A message as one or more messages of the platform, in the order to post them. No word is dropped: what does not fit
 * goes on in the next part. Throws RangeError for a button that no surface takes.
 */
export function renderMessage(message: Message, options: RenderOptions): readonly TeamsPart[] {
  const { words } = options;
  const counted = countedOptions(options);
  const body = withoutSummary(message);
  const below = body.filter((block) => block.kind === 'below');
  // Its label stays where it stood and leads there.
  const shown = body.map((block): Block => {
    if (block.kind !== 'below') return block;
    return { kind: 'paragraph', line: [{ kind: 'strong', text: block.label }, ` (${words.inThread})`] };
  });
  return [
    ...teamsParts(message, piecesOf(shown, counted), options, false),
    ...(below.length === 0 ? [] : teamsParts(message, piecesOf(below, counted), options, true)),
  ];
}

function teamsParts(
  message: Message,
  pieces: readonly Piece[],
  options: RenderOptions,
  thread: boolean,
): readonly TeamsPart[] {
  const { words } = options;
  const all = [...summaryPieces(message, options), ...pieces];
  const summary = notification(message, options, '');
  const whole = { thread, summary, card: cardOf(all, summary) };
  if (activitySize(whole) <= MOST_ACTIVITY - OWN_ACTIVITY) return [whole];
  const parts = partsOf(all);
  return parts.map((part, at) => {
    const mark = fill(words.part, { at: at + 1, of: parts.length });
    const again = `${cutText(plainLine(message.summary), MOST_SUMMARY) || '–'} (${mark})`;
    const before = at === 0 ? [] : textPieces(again, true);
    const after = at < parts.length - 1 ? textPieces(mark) : [];
    const said = notification(message, options, mark);
    return { thread, summary: said, card: cardOf([...before, ...part, ...after], said) };
  });
}

/** With what is counted over all parts of one message. */
export function countedOptions(options: RenderOptions): PieceOptions {
  let fold = -1;
  return {
    ...options,
    mentions: createMentions(),
    nextFold: () => {
      fold += 1;
      return fold;
    },
  };
}

/** A card of pieces. Only who is mentioned in this card is in its entities. */
export function cardOf(pieces: readonly Piece[], fallbackText: string): Card {
  const mentions = new Map(pieces.flatMap((piece) => piece.mentions).map((one) => [one.text, one]));
  return {
    type: 'AdaptiveCard',
    $schema: 'http://adaptivecards.io/schemas/adaptive-card.json',
    version: CARD_VERSION,
    fallbackText,
    body: pieces.flatMap(({ elements }) => elements),
    msteams: { width: 'Full', ...(mentions.size === 0 ? {} : { entities: [...mentions.values()] }) },
  };
}

/** The summary on the colour of its tone, which is said by a word as well. */
export function summaryPieces({ summary, tone }: Message, { words }: TextOptions): readonly Piece[] {
  const text = `${tonePrefix(tone, words)}${summary.trim() === '' ? '–' : summary}`;
  const title: CardElement = {
    type: 'TextBlock',
    text: markedLine(text),
    wrap: true,
    style: 'heading',
    size: 'Medium',
    weight: 'Bolder',
    ...(tone === 'plain' ? {} : { color: toneColors[tone] }),
  };
  const pieces = text.length > MOST_TITLE ? textPieces(text, true) : [pieceOf(title)];
  return pieces.map(({ elements, mentions }) => ({
    elements: [{ type: 'Container', style: toneStyles[tone], items: elements }],
    mentions,
  }));
}

/** What must be done, and every wall-clock time that runs out and is not yet said, as far as there is room. */
function notification({ summary, tone, blocks }: Message, { words }: TextOptions, mark: string): string {
  const clocks = blocks.flatMap((block) =>
    block.kind === 'countdown' && !summary.includes(block.clock) ? [`${block.label}: ${block.clock}`] : [],
  );
  const said = [summary.trim() === '' ? '–' : summary, ...clocks, ...(mark === '' ? [] : [mark])].join(' · ');
  return cutText(plainLine(`${tonePrefix(tone, words)}${said}`), MOST_SUMMARY);
}
