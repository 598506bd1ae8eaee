import type { Params } from '../../src/briefing/caution.ts';
import type { CautionWords, Texts } from '../../src/texts/texts.ts';
import { spoken } from '../../src/views/spoken.ts';

/** The title of a caution, or its id when it has been given up since. */
export function cautionTitle(texts: Texts, id: string): string {
  return orElse(
    () => wordsOf(texts, id).title,
    () => id,
  );
}

/** Why it applied that day and to what. Without words any more it shows the numbers, and says so. */
export function cautionReason(texts: Texts, id: string, params: Params): string {
  return orElse(
    () => wordsOf(texts, id).reason(spoken(params, texts)),
    () => {
      const numbers = Object.entries(params).map(([name, value]) => `${name} ${value}`);
      return [texts.say('paper.brief.words-gone'), ...numbers].join(' ');
    },
  );
}

export function cautionRows(texts: Texts, id: string, each: readonly Params[]): readonly string[] {
  return orElse(
    () => each.map((row) => wordsOf(texts, id).each(spoken(row, texts))).filter((row) => row !== null),
    () => each.map((row) => Object.values(row).join(', ')),
  );
}

/** The words of a read-back question, or its id. */
export function questionText(texts: Texts, question: string): string {
  const [caution = '', id = ''] = question.split('/');
  return orElse(
    () => standing(wordsOf(texts, caution).question(id)).ask,
    () => question,
  );
}

/** A running shift is told what to do about words that are gone; a record says what it knows instead. */
function wordsOf(texts: Texts, id: string): CautionWords {
  return standing(texts.caution(id));
}

function standing<T extends { readonly gone?: true }>(words: T): T {
  if (words.gone) throw new Error('these words are gone');
  return words;
}

/** A record must still print years later, when a caution or a placeholder of it is in no language file any more. */
function orElse<T>(words: () => T, otherwise: () => T): T {
  try {
    return words();
  } catch {
    return otherwise();
  }
}
