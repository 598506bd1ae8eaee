import { expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { wordToType } from '../../src/chat/words.ts';

const { textsFor } = loadTexts();

test.each(['en', 'es', 'pt', 'pl'])(
  'in %s, what people are told to type is what is understood',
  (language) => {
    const texts = textsFor(language);
    const words = (text: string) => text.split(/[^\p{L}]+/u);
    expect(words(texts.say('talk.old-button'))).toEqual(
      expect.arrayContaining([wordToType('today', texts), wordToType('help', texts)]),
    );
    expect(words(texts.say('talk.fault', { ref: '7' }))).toContain(wordToType('today', texts));
  },
);

test.each(['en', 'es', 'pt', 'pl'])('in %s, what every chat shows names no single chat', (language) => {
  const texts = textsFor(language);
  for (const text of [texts.say('talk.old-button'), texts.say('talk.fault', { ref: '7' })])
    expect(text).not.toMatch(/slack|teams|\bhome\b|inicio|início|ekran/i);
});
