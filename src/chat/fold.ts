/** A word as it is compared: no accents, no capitals. A thumb in a glove types neither. */
export function fold(word: string): string {
  return word
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ł/g, 'l')
    .replace(/ø/g, 'o')
    .replace(/đ/g, 'd');
}

/** One run of letters or of digits; `rig2` is two. */
export interface Word {
  readonly folded: string;
  readonly from: number;
  /** Behind its last character. */
  readonly to: number;
}

export function wordsOf(text: string): readonly Word[] {
  return [...text.matchAll(/[\p{L}\p{M}]+|\p{N}+/gu)].map((match) => ({
    folded: fold(match[0]),
    from: match.index,
    to: match.index + match[0].length,
  }));
}

/** The folded words of a name or of a phrase, in order. */
export const foldedWords = (text: string): readonly string[] => wordsOf(text).map(({ folded }) => folded);

/** Whether `phrase` stands in `words` from `index` on. */
export function standsAt(words: readonly Word[], index: number, phrase: readonly string[]): boolean {
  return phrase.length > 0 && phrase.every((word, i) => words[index + i]?.folded === word);
}

/** Characters nobody sees would part a word that looks whole. */
export const cleaned = (text: string): string =>
  text
    .normalize('NFC')
    .replace(/\p{Cf}/gu, '')
    .trim();

/** What somebody typed, short enough to be said back on one line. */
export function said(typed: string): string {
  const line = typed.replace(/[\s\p{Cc}]+/gu, ' ').trim();
  const letters = [...line];
  return letters.length <= 40 ? line : `${letters.slice(0, 39).join('')}…`;
}
