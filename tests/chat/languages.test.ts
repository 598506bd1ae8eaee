import { describe, expect, test } from 'vitest';
import { example, helpLines } from '../../src/chat/help.ts';
import { readTyped } from '../../src/chat/read-typed.ts';
import {
  commandNames,
  commandWords,
  doubleMeanings,
  insideNames,
  insideWords,
  wordsFor,
  wordToType,
} from '../../src/chat/words.ts';
import { lineText } from '../../src/message/plain-text.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { mixed, ready } from '../flow/harness.ts';
import { contextOf, type LanguageCode, languages, messageOf, textsIn, typed } from './site.ts';

const play = ready();

describe.each(languages)('%s', (language) => {
  const texts = textsIn(language);

  test('no word means two things', () => expect(doubleMeanings(texts)).toEqual([]));

  test.each(commandNames)('%s: each of its words and the English ones read alike', (name) => {
    const reads = wordsFor(name, texts).map((word) => typed(play, word, { language }));
    expect(wordsFor(name, texts)).toEqual(expect.arrayContaining([...commandWords[name]]));
    expect(new Set(reads.map((read) => JSON.stringify(read))).size).toBe(1);
    if (name !== 'step') expect(reads[0]?.kind).not.toBe('wrong');
  });

  test.each(commandNames)('%s: without accents and in capitals as well', (name) => {
    for (const word of wordsFor(name, texts)) {
      const bare = word.normalize('NFD').replace(/\p{M}/gu, '').replaceAll('ł', 'l').toUpperCase();
      expect(typed(play, bare, { language })).toEqual(typed(play, word, { language }));
    }
  });

  test.each(['metric', 'us'] as const)('what help tells to type is understood, %s', (units) => {
    const shown = textsIn(language, units);
    const reads = commandNames.map((name) => {
      const { kind } = typed(play, example(name, shown), { language, units });
      return `${name} ${kind}`;
    });
    const needed = { step: 'wrong', help: 'help' } as const;
    const shows = ['emergency', 'today', 'briefing', 'sign', 'bells', 'record'];
    const opens = ['check', 'defect', 'post', 'close', 'arrived'];
    expect(reads).toEqual(
      commandNames.map((name) => {
        if (name === 'step' || name === 'help') return `${name} ${needed[name]}`;
        return `${name} ${shows.includes(name) ? 'show' : opens.includes(name) ? 'open' : 'do'}`;
      }),
    );
  });

  test('help: stop and emergency first, a line for each command, then how a rig is named', () => {
    const lines = helpLines(texts).map(lineText);
    expect(lines).toHaveLength(commandNames.length + 1);
    expect(lines[0]).toMatch(new RegExp(`^${wordToType('stop', texts)} `));
    expect(lines[1]).toMatch(new RegExp(`^${wordToType('emergency', texts)}: `));
    expect(lines.at(-1)).toContain(`${wordToType('rig', texts)} 2`);
  });
});

test('the texts in English are the words that the program knows by itself', () => {
  const texts = textsIn('en');
  const own = (name: (typeof commandNames)[number] | (typeof insideNames)[number]) =>
    texts.say(`chat.word.${name}`).split(', ');
  for (const name of commandNames) expect([name, own(name)]).toEqual([name, [...commandWords[name]]]);
  for (const name of insideNames) expect([name, own(name)]).toEqual([name, [...insideWords[name]]]);
});

test('a word with two meanings is found, among commands and inside them, accents or not', () => {
  const english = textsIn('en');
  const bad: Texts = {
    ...english,
    say: (id, ...params) => {
      if (id === 'chat.word.go') return 'seguir, Páusa';
      if (id === 'chat.word.pause') return 'pausa';
      if (id === 'chat.word.thinner') return 'air';
      return english.say(id, ...params);
    },
  };
  expect(doubleMeanings(bad)).toEqual(['pausa: go, pause', 'air: air, thinner']);
});

describe('sentences of each language', () => {
  test.each<[LanguageCode, string, object]>([
    ['es', '¡ALTO! fuga en la pistola', { type: 'stop-work', text: 'fuga en la pistola' }],
    ['es', 'mezcla 20,5 L 28 °C', { type: 'mix-batch', rig: 'rig-1', litres: 20.5, paintC: 28 }],
    ['es', 'mezcla 20 litros 28 C diluyente 0,5 litros', { type: 'mix-batch', litres: 20, thinnerL: 0.5 }],
    ['es', 'pintura 31 C equipo 2', { type: 'pot-temperature', rig: 'rig-2', c: 31 }],
    ['es', 'manguera caliente', { type: 'hose-warm', rig: 'rig-1' }],
    ['es', 'medicion 21 C 60% acero 19 C', { type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 }],
    ['es', 'temp 31 C rig 2', { type: 'pot-temperature', rig: 'rig-2', c: 31 }],
    ['pt', 'PAREM fuga', { type: 'stop-work', text: 'fuga' }],
    ['pt', 'mistura 20 L 28 C por cima', { type: 'mix-batch', pot: 'on-top' }],
    ['pt', 'tinta 31 C equipamento 2', { type: 'pot-temperature', rig: 'rig-2', c: 31 }],
    ['pt', 'medicao 21 C humidade 60 aco 19', { type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 }],
    ['pl', 'stoj wyciek', { type: 'stop-work', text: 'wyciek' }],
    ['pl', 'porcja 20 litrow 28 C agregat 1', { type: 'mix-batch', rig: 'rig-1', litres: 20, paintC: 28 }],
    ['pl', 'waz 38 C', { type: 'hose-temperature', rig: 'rig-1', c: 38 }],
    ['pl', 'pomiar 21 C termometr', {}],
    ['pl', 'pomiar 21 C mokry termometr 15 C stal 19 C', { type: 'take-reading', wetC: 15, steelC: 19 }],
  ])('%s: %j', (language, text, command) => {
    const read = typed(play, text, { language });
    if (Object.keys(command).length === 0) expect(messageOf(read)).toContain('„termometr”');
    else expect(read).toMatchObject({ kind: 'do', command });
  });

  test('what is wrong is said in the language of the reader', () => {
    expect(messageOf(typed(play, 'tepm 31', { language: 'es' }))).toBe(
      '«tepm» no se conoce aquí. ¿Quería decir: temp? Escriba ayuda para ver qué se puede escribir.',
    );
    expect(messageOf(typed(play, 'farba 131 C', { language: 'pl' }))).toMatch(
      /^„131 C”: .+ Nic nie zrobiono\.$/,
    );
    expect(messageOf(typed(mixed(), 'mistura 20 L 20 C', { language: 'pt' }))).toBe(
      'Rig One tem tinta no depósito. Nada foi feito. Junte limpo se foi esvaziado, ou cima se foi por cima da tinta velha.',
    );
  });

  test('a language whose texts are broken still stops', () => {
    const context = contextOf({ shift: play.state, language: 'es' });
    const broken: Texts = { ...context.texts, say: (id, ..._params) => id };
    expect(readTyped('stop! leak', { ...context, texts: broken })).toEqual({
      kind: 'do',
      command: { type: 'stop-work', text: 'leak' },
    });
  });
});
