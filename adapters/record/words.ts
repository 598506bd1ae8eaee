import type { Params } from '../../src/briefing/caution.ts';
import type { Texts } from '../../src/texts/texts.ts';

/** The title of a caution, or its id when it has been given up since. */
export function cautionTitle(texts: Texts, id: string): string {
  return orElse(
    () => texts.caution(id).title,
    () => id,
  );
}

/** Why it applied that day and to what. Without words any more it shows the numbers, and says so. */
export function cautionReason(texts: Texts, id: string, params: Params): string {
  return orElse(
    () => texts.caution(id).reason(params),
    () => {
      const numbers = Object.entries(params).map(([name, value]) => `${name} ${value}`);
      return [texts.say('paper.brief.words-gone'), ...numbers].join(' ');
    },
  );
}

export function cautionRows(texts: Texts, id: string, each: readonly Params[]): readonly string[] {
  return orElse(
    () => each.map((row) => texts.caution(id).each(row)).filter((row) => row !== null),
    () => each.map((row) => Object.values(row).join(', ')),
  );
}

/** The words of a read-back question, or its id. */
export function questionText(texts: Texts, question: string): string {
  const [caution = '', id = ''] = question.split('/');
  return orElse(
    () => texts.caution(caution).question(id).ask,
    () => question,
  );
}

/** A record must still print years later, when a caution or a placeholder of it is in no language file any more. */
function orElse<T>(words: () => T, otherwise: () => T): T {
  try {
    return words();
  } catch {
    return otherwise();
  }
}
