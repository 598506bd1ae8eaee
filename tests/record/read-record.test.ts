import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { link } from '../../adapters/host/chain.ts';
import { readRecord } from '../../adapters/record/read-record.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { wholeDay } from './whole-day.ts';

let text: string;
beforeAll(async () => {
  text = recordJson(await (await wholeDay()).record());
}, 30_000);

// biome-ignore lint/suspicious/noExplicitAny: a file from anywhere
const changed = (change: (record: any) => void) => {
  const record = JSON.parse(text);
  change(record);
  return JSON.stringify(record);
};

test('a record is read back as it was written', () => {
  const read = readRecord(text);
  expect(read).toMatchObject({ ok: true });
  expect(read.ok && read.record).toEqual(JSON.parse(text));
});

test.each([
  ['an empty file', () => '', /^This is not JSON: .*Give the \.json file of a shift record/],
  ['a file cut off', () => text.slice(0, 5000), /^This is not JSON/],
  ['the CSV file', () => 'seq,time_site\r\n', /^This is not JSON/],
  ['other JSON', () => '{"name":"potbell"}', /^This is not a shift record: "format" should be/],
  ['a list', () => '[]', /^This is not a shift record/],
  ['null', () => 'null', /^This is not a shift record/],
  ['a later version', () => changed((r) => (r.version = 5)), /has version 5; this Potbell reads version 4/],
  ['no version', () => changed((r) => delete r.version), /has version nothing/],
  ['no journal', () => changed((r) => delete r.journal), /not whole: journal: /],
  [
    'an empty journal',
    () => changed((r) => (r.journal = [])),
    /journal: a record holds at least one journal line/,
  ],
  [
    'a hash that is none',
    () => changed((r) => (r.journal[2].hash = 'ABC')),
    /journal\.2\.hash: a SHA-256 hash has 64 digits/,
  ],
  [
    'litres in words',
    () => changed((r) => (r.summary.batches[0].litres = 'twenty')),
    /summary\.batches\.0\.litres: .*expected number/,
  ],
  [
    'a moment without offset',
    () => changed((r) => (r.madeAt = '2026-06-08T16:36:00')),
    /madeAt: write a moment with its offset/,
  ],
  ['something more', () => changed((r) => (r.summary.note = 'x')), /summary: .*note/],
])('%s is refused with words', (_what, make, says) => {
  const read = readRecord(make());
  expect(read.ok).toBe(false);
  expect(!read.ok && read.problem).toMatch(says);
  expect(verifyRecord(make())).toMatchObject({ ok: false, lines: 0, head: null });
});

test('nothing that can be given makes it throw', () => {
  const anything = fc.oneof(
    fc.string(),
    fc.json(),
    fc.jsonValue().map((value) => JSON.stringify(value)),
  );
  fc.assert(fc.property(anything, (given) => verifyRecord(given).ok === false));
});

test('a record with any part of another kind is refused or found, never thrown at', () => {
  const paths = placesIn(JSON.parse(text));
  const other = fc.constantFrom(null, true, -1, 1e308, '', 'x', [], {}, '__proto__');
  fc.assert(
    fc.property(fc.constantFrom(...paths), other, (path, put) => {
      const given = changed((record) => {
        const holder = path.slice(0, -1).reduce((part, key) => part[key], record);
        const key = path.at(-1) ?? '';
        fc.pre(JSON.stringify(holder[key]) !== JSON.stringify(put));
        holder[key] = put;
      });
      expect(verifyRecord(given).ok).toBe(false);
    }),
    { numRuns: 60 },
  );
}, 120_000);

test('a journal of nonsense with a chain made for it is refused or found, never thrown at', () => {
  const bodies = placesIn(JSON.parse(text).journal).filter((path) => path[2] === 'body');
  const other = fc.constantFrom(null, true, -1, 1e308, '', 'x', [], {});
  fc.assert(
    fc.property(fc.constantFrom(...bodies), other, (path, put) => {
      const given = changed((record) => {
        const holder = path.slice(0, -1).reduce((part, key) => part[key], record.journal);
        const key = path.at(-1) ?? '';
        fc.pre(JSON.stringify(holder[key]) !== JSON.stringify(put));
        holder[key] = put;
        const events = record.journal.map(({ event }: { event: JournalEvent }) => event);
        const chained = link(record.summary.shift, null, events);
        record.journal = chained.map(({ event, previous, hash }) => ({ event, previous, hash }));
        record.seal.head = chained.at(-1)?.hash;
      });
      expect(verifyRecord(given).ok).toBe(false);
    }),
    { numRuns: 40 },
  );
}, 120_000);

function placesIn(value: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inside = Object.entries(value).flatMap(([key, item]) => placesIn(item, [...path, key]));
  return path.length === 0 ? inside : [path, ...inside];
}
