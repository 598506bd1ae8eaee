import type { Card } from './render-card.ts';

/**
 * What a person's press is answered with. learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/cards/
 * universal-actions-for-adaptive-cards/work-with-universal-actions-for-adaptive-cards, "Response format"; dialogs:
 * …/task-modules/task-modules-bots.
 */
const CARD = 'application/vnd.microsoft.card.adaptive';

/** In place of the card that was pressed in, for who pressed alone. */
export const cardBody = (card: Card): object => ({ statusCode: 200, type: CARD, value: card });

/** A few words that nobody else sees. */
export const noteBody = (text: string): object => ({
  statusCode: 200,
  type: 'application/vnd.microsoft.activity.message',
  value: text,
});

/**
 * A dialog opened, or the next page of the one that is open; without a size it is too small for a form.
 * learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/task-modules/task-modules-bots
 */
export const dialogBody = (title: string, card: Card): object => ({
  task: {
    type: 'continue',
    value: { title, height: 'large', width: 'large', card: { contentType: CARD, content: card } },
  },
});

/** The dialog closed with a few words, or these instead of one. */
export const dialogNote = (text: string): object => ({ task: { type: 'message', value: text } });
