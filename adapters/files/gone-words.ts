import type { CautionWords, QuestionWords, Texts } from '../../src/texts/texts.ts';

/** As many as a question can have; the first is the right one. */
const MOST_CHOICES = 10;

/**
 * Stands in for a caution whose words went while a shift was running on it: its id is what is left to ask the foreman by.
 * A crew that was told to sign must still be able to, and no caution goes because its file did.
 */
export function goneWords(id: string, { say }: Pick<Texts, 'say'>): CautionWords {
  return {
    title: id,
    reason: () => say('gone.reason'),
    each: () => null,
    steps: () => [say('gone.step')],
    more: [],
    question: () => goneQuestion({ say }),
    gone: true,
  };
}

export function goneQuestion({ say }: Pick<Texts, 'say'>): QuestionWords {
  const wrong = [say('gone.start'), say('gone.guess')];
  const more = Array.from({ length: MOST_CHOICES - 1 }, (_, i) => wrong[i % wrong.length] ?? '');
  return {
    ask: say('gone.ask'),
    choices: [say('gone.ask-foreman'), ...more],
    because: say('gone.because'),
    gone: true,
  };
}
