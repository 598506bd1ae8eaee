import type { Params } from '../briefing/caution.ts';
import type { Line } from '../message/message.ts';
import type { TextId, TextParams } from './text-ids.ts';

/** One language, ready to use. Made from `templates/<language>/` by an adapter; the core only asks. */
export interface Texts {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  /** How its readers write numbers and dates, such as "en-GB". */
  readonly locale: string;
  /** `not-yet`: a machine's draft of which somebody who reads the language well has not read every word. */
  readonly checked: 'all' | 'not-yet';
  /** The text with its placeholders filled, as plain characters. */
  say<K extends TextId>(id: K, ...params: TextParams<K>): string;
  caution(id: string): CautionWords;
}

/** The words of one caution, placeholders filled by the caller's params. */
export interface CautionWords {
  readonly title: string;
  reason(params: Params): string;
  /** One line for each row of `caution.each`; null when the caution has none. */
  each(params: Params): string | null;
  steps(params: Params): readonly string[];
  /** Shown one tap away; never anything a stop needs. */
  readonly more: readonly string[];
  question(id: string): QuestionWords;
  /** There are no words for it any more; these say so. */
  readonly gone?: true;
}

export interface QuestionWords {
  readonly ask: string;
  /** Choice 0 is the right one. */
  readonly choices: readonly string[];
  readonly because: string;
  readonly gone?: true;
}

/**
 * Texts by language code; falls back to the site's language, then to English, never to an empty string. Figures are in
 * the site's units; `metric` asks for metric ones all the same, for data files, which do not change with the site's units.
 */
export type TextsFor = (language: string, units?: 'metric') => Texts;

/** A text as one line of a message. */
export function line(text: string): Line {
  return [text];
}
