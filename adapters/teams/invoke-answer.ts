import type { Answer } from './link.ts';
import type { Card } from './render-card.ts';

const CARD = 'application/vnd.microsoft.card.adaptive';
const WORDS = 'application/vnd.microsoft.activity.message';

/** Longer words stand in a card instead: no figure is published, a phone shows about this much (from memory). */
export const MOST_WORDS = 200;

const ok = (body: object | null): Answer => ({ status: 200, body });

/** Nothing to show: for what nobody waits for an answer to. */
export const nothing: Answer = ok(null);

/** For an invoke that is not for Potbell, as the platform's own library answers it. */
export const notOurs: Answer = { status: 501, body: null };

/**
 * A card that who pressed sees in place of the one pressed in, and nobody else, until it is updated for all.
 * learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/cards/universal-actions-for-adaptive-cards/
 * work-with-universal-actions-for-adaptive-cards, "Response format".
 */
export const cardInPlace = (card: Card): Answer => ok({ statusCode: 200, type: CARD, value: card });

/** A few words shown to who pressed, for a moment: never anything that has to be read later. */
export const fewWords = (words: string): Answer => ok({ statusCode: 200, type: WORDS, value: words });

/**
 * Opens a dialog, or shows its next step in place of the last. The answer has 5 s. learn.microsoft.com/
 * microsoftteams/platform/task-modules-and-cards/task-modules/task-modules-bots.
 */
export const dialog = (title: string, card: Card): Answer =>
  ok({
    task: {
      type: 'continue',
      value: { title, height: 'large', width: 'large', card: { contentType: CARD, content: card } },
    },
  });

/** Closes the dialog with words to read. Same source. */
export const dialogWords = (words: string): Answer => ok({ task: { type: 'message', value: words } });
