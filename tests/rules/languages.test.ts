import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { root } from './files.ts';
import { languageFaults } from './language-faults.ts';
import { writtenTexts } from './language-words.ts';
import { sameWords } from './same-words.ts';

const templates = join(root, 'templates');
const cautions = cautionRules.map(({ id }) => id);
const loaded = loadTexts(templates, { cautions });
const english = writtenTexts(join(templates, 'en'));
const others = readdirSync(templates).filter((name) => /^[a-z]{2}$/.test(name) && name !== 'en');

describe('languages that come with Potbell', () => {
  test('English is read as it is written', () => {
    expect(english.get('hold.not-briefed')).toBe('The briefing has not been given yet.');
    expect([...english.keys()].filter((id) => /^cautions\/\S+\.title$/.test(id))).toHaveLength(
      cautions.length,
    );
    expect(languageFaults(english, english, 'en', [...english.keys()])).toEqual([]);
  });

  test('nothing in the list of equal words is out of date', () => {
    expect(Object.keys(sameWords).filter((code) => !others.includes(code))).toEqual([]);
    for (const ids of Object.values(sameWords)) expect(ids.filter((id) => !english.has(id))).toEqual([]);
  });
});

describe.each(['en', ...others])('%s', (code) => {
  const inside = ({ file }: { readonly file: string }) => file.startsWith(join(templates, code));

  test('is read without a problem, and nothing falls back to English', () => {
    expect(loaded.problems.filter(inside).map(formatProblem)).toEqual([]);
    expect(loaded.warnings.filter(inside).map(formatProblem)).toEqual([]);
  });

  test('is as whole as English: texts, cautions, steps, questions, placeholders, cases, plurals', () => {
    const { locale } = loaded.textsFor(code);
    const own = writtenTexts(join(templates, code));
    const same = code === 'en' ? [...english.keys()] : (sameWords[code] ?? []);
    expect(languageFaults(english, own, locale, same)).toEqual([]);
  });
});

describe('a fault in a translation is found', () => {
  const base = new Map([
    ['greet', 'Use it by {time}'],
    ['hot', 'Steel {c °C}, at most {=38 °C|100 °F}'],
    ['where', '{where, select, pot {in the pot} other {in the line}}'],
    ['count', '{count, plural, =0 {none left} one {# batch} other {# batches}}'],
    ['unit', '{litres L}'],
  ]);
  const good = new Map([
    ['greet', 'Zu {time} vo'],
    ['hot', 'Sto {=38 °C|100 °F}, {c °C}'],
    ['where', '{where, select, pot {zo pot} other {zo lin}}'],
    ['count', '{count, plural, =0 {nul} one {# mu} few {# muy} many {# muz} other {# mue}}'],
    ['unit', '{litres L}'],
  ]);
  const faults = (changes: Readonly<Record<string, string>>, without: readonly string[] = []) =>
    languageFaults(
      base,
      new Map([...good, ...Object.entries(changes)].filter(([id]) => !without.includes(id))),
      'pl-PL',
    );

  test('and nothing where there is none', () => expect(faults({})).toEqual([]));

  test.each<[string, Readonly<Record<string, string>>, readonly string[]]>([
    ['a lost placeholder', { greet: 'Zu vo' }, ['greet: lost {time}']],
    ['another placeholder', { greet: 'Zu {time} {rig}' }, ['greet: {rig} is not in the English']],
    [
      'a lost unit',
      { hot: 'Sto {c} {=38 °C|100 °F}' },
      ['hot: lost {c °C}', 'hot: {c} is not in the English'],
    ],
    [
      'another unit',
      { hot: 'Sto {c bar} {=38 °C|100 °F}' },
      ['hot: lost {c °C}', 'hot: {c bar} is not in the English'],
    ],
    [
      'another figure',
      { hot: 'Sto {c °C} {=40 °C|104 °F}' },
      ['hot: lost {=38 °C|100 °F}', 'hot: {=40 °C|104 °F} is not in the English'],
    ],
    ['a lost case', { where: '{where, select, other {zo lin}}' }, ['where: {where} has no case pot']],
    [
      'a translated case',
      { where: '{where, select, garnek {zo} other {lin}}' },
      ['where: {where} has no case pot', 'where: {where} has a case garnek'],
    ],
    [
      'a choice made a plain word',
      { where: 'zo {where}' },
      [
        'where: {where} is not in the English',
        'where: {where} has no case pot',
        'where: {where} has no case other',
      ],
    ],
    [
      'a plural the language needs',
      { count: '{count, plural, =0 {nul} one {#} other {#}}' },
      ['count: {count} has no plural few', 'count: {count} has no plural many'],
    ],
    [
      'a lost "none"',
      { count: '{count, plural, one {#} few {#} many {#} other {#}}' },
      ['count: {count} has no case =0'],
    ],
    [
      'a plural it has not',
      { count: '{count, plural, =0 {} two {#} one {#} few {#} many {#} other {#}}' },
      ['count: {count} has a plural two, which pl-PL has not'],
    ],
    ['English left', { greet: 'Use it by {time}' }, ['greet: still in English']],
  ])('%s', (_name, changes, says) => expect([...faults(changes)].sort()).toEqual([...says].sort()));

  test('a text that is not there, and one that is too much', () => {
    expect(faults({}, ['greet'])).toEqual(['greet: no words']);
    expect(faults({ grete: 'Zu' })).toEqual(['grete: not in English']);
  });

  test('a number may get a plural that English does not need', () => {
    const two = languageFaults(
      new Map([['n', '{n} kg']]),
      new Map([['n', '{n, plural, one {#} few {#} many {#} other {#}} kg']]),
      'pl-PL',
    );
    expect(two).toEqual([]);
  });
});
