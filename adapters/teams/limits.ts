/** How much of something the chat platform takes, and where that stands. */
export interface Limit {
  readonly most: number;
  readonly source: string;
}

/** Characters are counted as JavaScript counts them (UTF-16 units). */
export const limits = {
  /** The whole activity as JSON, two bytes a character. About 100 KB are taken; the documentation asks to stay below this. */
  activityBytes: {
    most: 80 * 1024,
    source: 'learn.microsoft.com/microsoftteams/platform/bots/how-to/format-your-bot-messages',
  },
  /** More would hide behind a menu. */
  actionsInSet: { most: 6, source: 'from memory: how many actions a card shows at once' },
  /** No figure is published. A longer title is cut short on a phone, so it also stands whole above its button. */
  actionTitle: { most: 40, source: 'from memory: what a phone shows of a title on one line' },
  /** More are refused; left out altogether, only small chats refresh. */
  refreshedPeople: {
    most: 60,
    source:
      'learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/cards/universal-actions-for-adaptive-cards/user-specific-views',
  },
  /** Our own: an action is an id and a few figures on every surface. */
  actionData: { most: 2000, source: 'src/message/action.ts (encodeAction)' },
} as const satisfies Record<string, Limit>;

/** The newest version a bot may send. Source: msteams-docs, cards-reference.md. */
export const CARD_VERSION = '1.5';

/** The same in characters, of which the sender needs some for the conversation and whom it is from. */
export const MOST_ACTIVITY = limits.activityBytes.most / 2;
export const OWN_ACTIVITY = 2500;
