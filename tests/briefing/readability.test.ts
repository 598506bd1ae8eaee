import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fleschKincaid } from 'flesch-kincaid';
import { syllable } from 'syllable';
import { afterAll, describe, expect, it } from 'vitest';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { root } from '../rules/files.ts';
import { fill, readWords } from './caution-md.ts';
import { everyDay } from './every-day.ts';

/**
 * How hard the cautions are to read for somebody tired, standing in the rain. Grade: Flesch and Kincaid, US Navy Research
 * Branch Report 8-75 (1975), by the npm libraries flesch-kincaid and syllable. It is made for running English prose; for
 * three-word orders it is a warning of long words and long sentences, no more.
 */
const LONGEST = 42;
const MEAN_WORDS = 10;
const GRADE = 6;

/** Long by an address and the name of a hospital, which nobody can shorten. */
const longer: Readonly<Record<string, number>> = { 'first-response': 54 };

interface Measured {
  readonly words: number;
  readonly mean: number;
  readonly grade: number;
}

/** A figure and its unit are read as one. */
const wordsOf = (text: string): readonly string[] =>
  text
    .replace(/(\d) (?=(?:°C|bar|L\/min|L|m³\/min|m³|m²|mm|m\/s|min|h|µm|m)\b)/gu, '$1')
    .split(/\s+/)
    .filter((word) => /[\p{L}\p{N}]/u.test(word));

function measure(text: string): Measured {
  const words = wordsOf(text);
  const sentence = text.split(/(?<=[.?!])\s+/).filter((part) => part !== '').length;
  const syllables = words.reduce((sum, word) => sum + Math.max(1, syllable(word)), 0);
  const grade = fleschKincaid({ sentence, word: words.length, syllable: syllables });
  return { words: words.length, mean: words.length / sentence, grade };
}

const days = everyDay();

/** The worst that any invented day makes of a caution, each figure by itself. */
function worst(id: string, find: (typeof cautionRules)[number]['find']): Measured {
  const { why, steps } = readWords(id);
  const said = days.flatMap((facts) => {
    const found = find(facts);
    return found ? [[why, ...steps].map((text) => fill(text, found.params)).join(' ')] : [];
  });
  const all = [...new Set(said)].map(measure);
  const most = (figure: keyof Measured) => Math.max(...all.map((one) => one[figure]));
  return { words: most('words'), mean: most('mean'), grade: most('grade') };
}

const table = cautionRules.map((rule) => [rule.id, worst(rule.id, rule.find)] as const);

afterAll(() => {
  const rows = [...table]
    .sort(([, a], [, b]) => b.grade - a.grade)
    .map(([id, { words, mean, grade }]) => `| ${id} | ${words} | ${mean.toFixed(1)} | ${grade.toFixed(1)} |`);
  const head = ['| caution | words | words a sentence | grade |', '| --- | --- | --- | --- |'];
  mkdirSync(join(root, 'build'), { recursive: true });
  writeFileSync(join(root, 'build/readability.md'), `${[...head, ...rows].join('\n')}\n`);
});

describe('the measure itself', () => {
  it('gives a longer sentence of longer words a higher grade', () => {
    const short = measure('Stop. Lock the trigger.');
    const long = measure('Operatives are required to engage the trigger-locking mechanism immediately.');
    expect(short.grade).toBeLessThan(GRADE);
    expect(long.grade).toBeGreaterThan(GRADE);
    expect(short.mean).toBe(2);
    expect(long.mean).toBe(9);
  });

  it('is the published formula: 0.39 × words a sentence + 11.8 × syllables a word − 15.59', () => {
    expect(fleschKincaid({ sentence: 2, word: 20, syllable: 30 })).toBeCloseTo(
      0.39 * 10 + 11.8 * 1.5 - 15.59,
      9,
    );
  });

  it('reads a figure and its unit as one word', () => {
    expect(wordsOf('Steel 20 °C, 45 m³/min of air, 10 min.')).toHaveLength(6);
  });
});

describe.each(table)('%s', (id, { words, mean, grade }) => {
  it('is short before "More"', () => expect(words).toBeLessThanOrEqual(longer[id] ?? LONGEST));
  it('has short sentences', () => expect(mean).toBeLessThanOrEqual(MEAN_WORDS));
  it('needs no more than six years of school', () => expect(grade).toBeLessThanOrEqual(GRADE));
});
