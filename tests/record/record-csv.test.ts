import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { csvCell } from '../../adapters/record/csv-cell.ts';
import { recordCsv } from '../../adapters/record/record-csv.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { readCsv } from './csv-reader.ts';
import { wholeDay } from './whole-day.ts';

let input: RecordInput;
let text: string;
let rows: readonly Readonly<Record<string, string>>[];

function rowsOf(csv: string): readonly Readonly<Record<string, string>>[] {
  const [heads = [], ...lines] = readCsv(csv);
  return lines.map((cells) => {
    expect(cells).toHaveLength(heads.length);
    return Object.fromEntries(heads.map((head, place) => [head, cells[place] ?? '']));
  });
}

beforeAll(async () => {
  input = await (await wholeDay()).record();
  text = recordCsv(input);
  rows = rowsOf(text);
}, 30_000);

describe('the CSV record', () => {
  test('has its columns and one row a journal line', () => {
    expect(text.split('\r\n')[0]).toBe(
      'seq,time_site,time_utc,who,surface,what,rig,person,text,late_seconds,hash',
    );
    expect(rows.map(({ seq, what, hash }) => [Number(seq), what, hash])).toEqual(
      input.journal.map(({ event, hash }) => [event.seq, event.body.type, hash]),
    );
  });

  test('gives both times of the same moment', () => {
    for (const [index, { time_site, time_utc }] of rows.entries()) {
      const at = input.journal[index]?.event.at;
      expect(Date.parse(time_site ?? '')).toBe(at);
      expect(Date.parse(time_utc ?? '')).toBe(at);
      expect(time_site).toMatch(/\+01:00$/);
      expect(time_utc).toMatch(/Z$/);
    }
  });

  test('says how late each bell rang, in that line only', () => {
    for (const [index, { late_seconds }] of rows.entries()) {
      const event = input.journal[index]?.event;
      if (event?.body.type !== 'bell-rang') expect(late_seconds).toBe('');
      else expect(Number(late_seconds)).toBeCloseTo((event.at - event.body.scheduledFor) / 1000, 0);
    }
    expect(rows.some(({ late_seconds }) => Number(late_seconds) > 60)).toBe(true);
  });

  test('says in plain words what happened', () => {
    const words = (what: string) => rows.filter((row) => row.what === what).map((row) => row.text);
    expect(words('step-skipped')).toEqual([
      'Rig 1 (large pump): step left out (Clean the filters of gun and pump): New filters go in tomorrow, old ones thrown away',
    ]);
    expect(words('day-changed')[0]).toContain('Air pressure at the pump: 5.5 bar (was 5 bar)');
    expect(words('work-stopped')[0]).toContain('Somebody under the scaffold');
    expect(words('rig-checked')[1]).toContain('DEFECT');
    expect(words('shift-closed')[0]).toContain('new gun');
    for (const row of rows) {
      expect(row.text?.trim()).not.toBe('');
      // Neither a placeholder that was not filled nor the name of the event instead of words.
      expect(row.text).not.toMatch(/[{}]|undefined|null/);
      expect(row.text).not.toBe(row.what);
    }
  });

  test('names who did it, from where, to which rig and about whom', () => {
    expect(rows.find(({ what }) => what === 'work-stopped')).toMatchObject({
      who: 'somebody who gave no name',
      surface: 'board',
      rig: '',
      person: '',
    });
    expect(rows.find(({ what }) => what === 'batch-mixed')).toMatchObject({
      who: 'Bento',
      rig: 'Rig 1 (large pump)',
    });
    const witnessed = rows.find(({ what, person }) => what === 'signed' && person === 'Nuno');
    expect(witnessed).toMatchObject({ who: 'Ines' });
    expect(rows.find(({ what }) => what === 'bell-rang')).toMatchObject({ who: 'Potbell', surface: 'bells' });
    expect(rows.find(({ what }) => what === 'message-undelivered')).toMatchObject({ person: 'Clara' });
  });

  test("people's own words cannot run in a spreadsheet and cannot break a row", async () => {
    const evil = '=HYPERLINK("x";"y"),\r\n@SUM(A1);=1+1';
    const hostile = await (await wholeDay({ said: () => evil })).record();
    const found = rowsOf(recordCsv(hostile));
    expect(found).toHaveLength(hostile.journal.length);
    for (const row of found)
      for (const cell of Object.values(row)) expect(cell).not.toMatch(/(^|[;\t\r\n]\s*)[=+\-@]/);
  });
});

describe('a CSV cell', () => {
  test.each([
    ['', ''],
    ['plain', 'plain'],
    ['a, b', '"a, b"'],
    ['say "no"', '"say ""no"""'],
    ['two\r\nlines', '"two\r\nlines"'],
    ['=1+1', "'=1+1"],
    ['+31 20', "'+31 20"],
    ['-5 °C', "'-5 °C"],
    ['@home', "'@home"],
    ['\tx', "'\tx"],
    ['\rx', '"\'\rx"'],
    ['\n=x', '"\'\n\'=x"'],
    ['＝1', "'＝1"],
    ['rest;=1+1;', "rest;'=1+1;"],
    ['steel 5 - 8 °C', 'steel 5 - 8 °C'],
    ['a=b', 'a=b'],
  ])('%j becomes %j', (value, cell) => {
    expect(csvCell(value)).toBe(cell);
  });

  test('numbers stay numbers, nothing stays empty', () => {
    expect(csvCell(12.5)).toBe('12.5');
    expect(csvCell(null)).toBe('');
  });

  test('comes back from a reader as it was, but for the apostrophes', () => {
    const word = fc.string({
      unit: fc.constantFrom('a', ',', '"', '\r', '\n', ';', '=', '-', ' ', "'", 'é', '😀'),
    });
    fc.assert(
      fc.property(word, word, (x, y) => {
        const [row] = readCsv(`${csvCell(x)},${csvCell(y)}\r\n`);
        const bare = (cell: string | undefined) => (cell ?? '').replaceAll("'", '');
        expect(row?.map(bare)).toEqual([bare(x), bare(y)]);
        for (const cell of row ?? []) expect(cell).not.toMatch(/^[=+\-@\t\r\n]/);
      }),
    );
  });
});
