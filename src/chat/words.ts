import type { Texts } from '../texts/texts.ts';
import { foldedWords, standsAt, type Word } from './fold.ts';

/**
 * The English words, which work in every language, whatever became of its texts: nobody may find that "stop" is not
 * understood. Every language has words of its own beside them, in the texts `chat.word.*`.
 */
export const commandWords = {
  stop: ['stop', 'stop work', 'halt'],
  emergency: ['emergency', 'accident'],
  help: ['help'],
  today: ['today', 'board'],
  briefing: ['briefing', 'brief'],
  sign: ['sign', 'sign off'],
  bells: ['bells', 'bell', 'notices'],
  record: ['record'],
  batch: ['batch', 'mix'],
  temp: ['temp', 'temperature'],
  hose: ['hose'],
  warm: ['warm', 'hose warm', 'hose is warm', 'warm hose'],
  pause: ['pause', 'break'],
  go: ['go', 'resume'],
  empty: ['empty', 'pot empty'],
  flush: ['flush'],
  step: ['step'],
  reading: ['reading', 'weather'],
  concern: ['concern'],
  check: ['check'],
  defect: ['defect', 'broken'],
  post: ['post'],
  close: ['close'],
  arrived: ['arrived', 'arrive'],
} as const satisfies Readonly<Record<string, readonly string[]>>;
export type CommandWord = keyof typeof commandWords;
export const commandNames = Object.keys(commandWords) as readonly CommandWord[];

/** Words inside a command. */
export const insideWords = {
  rig: ['rig'],
  fresh: ['fresh'],
  top: ['top', 'on top'],
  thinner: ['thinner'],
  air: ['air'],
  steel: ['steel'],
  wet: ['wet', 'wet bulb'],
  humidity: ['humidity'],
  litres: ['litre', 'litres', 'liter', 'liters'],
  gallons: ['gallon', 'gallons', 'gals'],
} as const satisfies Readonly<Record<string, readonly string[]>>;
export type InsideWord = keyof typeof insideWords;
export const insideNames = Object.keys(insideWords) as readonly InsideWord[];

/** The words of a text such as "batch, mix". */
const listed = (text: string): readonly string[] =>
  text
    .split(',')
    .map((one) => one.trim())
    .filter((one) => foldedWords(one).length > 0);

/** The reader's own words first, then the English ones. */
export function wordsFor(name: CommandWord | InsideWord, texts: Texts): readonly string[] {
  const own = listed(texts.say(`chat.word.${name}`));
  const english = { ...commandWords, ...insideWords }[name];
  return [...new Set([...own, ...english])];
}

/** The word people are told to type. */
export function wordToType(name: CommandWord | InsideWord, texts: Texts): string {
  return wordsFor(name, texts)[0] ?? name;
}

export interface Phrase<K> {
  readonly name: K;
  readonly shown: string;
  readonly words: readonly string[];
}

/** The longest phrase first, so that "hose warm" is not read as "hose". */
export function phrases<K extends CommandWord | InsideWord>(
  names: readonly K[],
  texts: Texts,
): readonly Phrase<K>[] {
  return names
    .flatMap((name) =>
      wordsFor(name, texts).map((shown): Phrase<K> => ({ name, shown, words: foldedWords(shown) })),
    )
    .sort((a, b) => b.words.length - a.words.length);
}

/** The phrase that stands at a place, or null. */
export function phraseAt<K>(
  words: readonly Word[],
  index: number,
  known: readonly Phrase<K>[],
): Phrase<K> | null {
  return known.find((phrase) => standsAt(words, index, phrase.words)) ?? null;
}

/** Words that mean two things in one language, as "word: one, other". Commands and the words inside them are apart. */
export function doubleMeanings(texts: Texts): readonly string[] {
  return [...doubles(phrases(commandNames, texts)), ...doubles(phrases(insideNames, texts))];
}

function doubles<K extends string>(known: readonly Phrase<K>[]): readonly string[] {
  const meanings = new Map<string, Set<K>>();
  for (const { name, words } of known) {
    const key = words.join(' ');
    meanings.set(key, (meanings.get(key) ?? new Set<K>()).add(name));
  }
  return [...meanings].flatMap(([key, names]) =>
    names.size > 1 ? [`${key}: ${[...names].sort().join(', ')}`] : [],
  );
}
