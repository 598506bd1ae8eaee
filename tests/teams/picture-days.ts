import { talkWords } from '../../adapters/cli/talk-words.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { type RenderOptions, renderMessage } from '../../adapters/teams/render.ts';
import type { Card } from '../../adapters/teams/render-card.ts';
import { renderFormSteps } from '../../adapters/teams/render-steps.ts';
import type { Play } from '../flow/harness.ts';
import { days, formsOf, messagesOf } from '../slack/picture-days.ts';

const { textsFor } = loadTexts();

/** One person is met by a mention, the others by their names. */
const optionsIn = (language: string): RenderOptions => ({
  person: (id, name) => (id === 'pia' ? { id: '29:pia', name } : null),
  words: talkWords(textsFor(language)),
  of: 'shift-mark',
});

export interface Cards {
  readonly messages: readonly Card[];
  readonly dialogs: readonly Card[];
}

/** Every different card of this day: what is posted, and every form as it stands in a dialog. */
export function cardsOf(play: Play | null, language: string): Cards {
  const options = optionsIn(language);
  const messages = messagesOf(play, language);
  const once = (cards: readonly Card[]): readonly Card[] => [
    ...new Map(cards.map((card) => [JSON.stringify(card), card])).values(),
  ];
  return {
    messages: once(messages.flatMap((one) => renderMessage(one, options)).map(({ card }) => card)),
    dialogs: once(
      formsOf(play, language, messages)
        .flatMap((form) => renderFormSteps(form, { ...options, dialog: true }))
        .map(({ card }) => card),
    ),
  };
}

export { days };
