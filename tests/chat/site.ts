import { loadTexts } from '../../adapters/files/load-texts.ts';
import { readTyped } from '../../src/chat/read-typed.ts';
import type { Typed, TypedContext } from '../../src/chat/typed.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Units } from '../../src/units/quantity.ts';
import type { Play } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';

const loaded = { metric: loadTexts(), us: loadTexts(undefined, { units: 'us' }) };
export const languages = ['en', 'es', 'pt', 'pl'] as const;
export type LanguageCode = (typeof languages)[number];
export const textsIn = (language: LanguageCode, units: Units = 'metric'): Texts =>
  loaded[units].textsFor(language);

export interface Reader {
  readonly shift: Shift | null;
  readonly now?: number;
  readonly language?: LanguageCode;
  readonly units?: Units;
  readonly viewer?: string | null;
}

export function contextOf({
  shift,
  now = 0,
  language = 'en',
  units = 'metric',
  viewer = 'pia',
}: Reader): TypedContext {
  const pack = aPack();
  return {
    pack: { ...pack, site: { ...pack.site, units } },
    shift,
    viewer,
    now,
    texts: textsIn(language, units),
  };
}

/** What `text` is read as on the shift of `play`, at its time. */
export function typed(play: Play, text: string, more: Omit<Reader, 'shift' | 'now'> = {}): Typed {
  return readTyped(text, contextOf({ shift: play.state, now: play.now, ...more }));
}

export const messageOf = (read: Typed): string =>
  read.kind === 'wrong' ? read.message : `not wrong: ${JSON.stringify(read)}`;
