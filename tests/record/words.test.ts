import { expect, test } from 'vitest';
import { eventText } from '../../adapters/record/event-text.ts';
import { recordCsv } from '../../adapters/record/record-csv.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { recordPage } from '../../adapters/record/record-page.ts';
import { walkJournal } from '../../adapters/record/walk.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { readCsv } from './csv-reader.ts';
import { wholeDay } from './whole-day.ts';

/** A language of one sign: whatever else is read on paper came from people, from data, or past the language files. */
const oneSign: Texts = {
  language: 'en',
  direction: 'ltr',
  locale: 'en-GB',
  checked: 'all',
  say: () => '¤',
  caution: () => ({
    title: '¤',
    reason: () => '¤',
    each: () => '¤',
    steps: () => ['¤'],
    more: [],
    question: () => ({ ask: '¤', choices: ['¤', '¤', '¤'], because: '¤' }),
  }),
};

function wordsOf(text: string): readonly string[] {
  return text.match(/\p{L}{3,}/gu) ?? [];
}

/** Words of the data itself: what people wrote, names, ids. Names of fields do not count. */
function valuesOf(value: unknown): readonly string[] {
  if (typeof value === 'string') return wordsOf(value);
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(valuesOf);
}

test('nothing is read on paper that is neither in a language file nor in the journal', async () => {
  const input = await (await wholeDay({ words: () => oneSign })).record();
  const given = new Set(valuesOf(JSON.parse(recordJson(input))));
  const html = recordPage(input);
  const paper = html.replace(/<style>.*?<\/style>/s, '').replace(/<[^>]*>/g, ' ');
  expect(paper.split('¤').length).toBeGreaterThan(500);
  expect(wordsOf(paper.replaceAll(/&\w+;|&#\d+;/g, ' ')).filter((word) => !given.has(word))).toEqual([]);

  const [, ...rows] = readCsv(recordCsv(input));
  expect(wordsOf(rows.flat().join(' ')).filter((word) => !given.has(word))).toEqual([]);

  const { lines } = walkJournal(
    input.shift.id,
    input.journal.map(({ event }) => event),
  );
  for (const told of lines) expect(eventText(told, oneSign), told.body.type).toContain('¤');
}, 30_000);
