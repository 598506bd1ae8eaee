import { describe, expect, test } from 'vitest';
import { readTyped } from '../../src/chat/read-typed.ts';
import { commandNames, wordsFor } from '../../src/chat/words.ts';
import { ready } from '../flow/harness.ts';
import { contextOf, languages, messageOf, textsIn, typed } from './site.ts';

const play = ready();

describe.each(languages)('somebody Potbell does not know, %s', (language) => {
  test.each(commandNames)('%s', (name) => {
    for (const word of wordsFor(name, textsIn(language))) {
      const read = typed(play, `${word} 1`, { language, viewer: null });
      if (name === 'stop')
        expect(read).toMatchObject({ kind: 'do', command: { type: 'stop-work', text: '1' } });
      else if (name === 'emergency') expect(read).toEqual({ kind: 'show', page: 'emergency' });
      else if (name === 'help') expect(read).toEqual({ kind: 'help' });
      else expect(messageOf(read)).toContain('Potbell');
    }
  });

  test('is told what they can type', () => {
    const message = messageOf(typed(play, 'batch', { language, viewer: null }));
    const [stop = '', emergency = ''] = (['stop', 'emergency'] as const).map(
      (name) => wordsFor(name, textsIn(language))[0],
    );
    expect(message).toContain(stop);
    expect(message).toContain(emergency);
  });
});

describe('with no day posted', () => {
  const read = (text: string) => readTyped(text, contextOf({ shift: null }));
  const none = 'No day has been posted. The foreman posts it first.';
  test.each([
    'batch 20 L 28 C',
    'temp 31 C',
    'hose 31 C',
    'warm',
    'pause',
    'go',
    'empty',
    'flush',
    'step',
    'reading 21 C 60 % steel 19 C',
    'check',
    'defect worn hose',
  ])('%j', (text) => expect(messageOf(read(text))).toBe(none));

  test.each([
    ['stop leak', { kind: 'do', command: { type: 'stop-work', text: 'leak' } }],
    ['emergency', { kind: 'show', page: 'emergency' }],
    ['today', { kind: 'show', page: 'today' }],
    ['help', { kind: 'help' }],
    ['post', { kind: 'open', form: { id: 'post-day', about: {} } }],
    ['arrived', { kind: 'open', form: { id: 'arrive', about: {} } }],
  ])('%j', (text, found) => expect(read(text)).toEqual(found));
});
