import { expect, test } from 'vitest';
import { readRecord } from '../../adapters/record/read-record.ts';
import { recordCsv } from '../../adapters/record/record-csv.ts';
import { recordFiles } from '../../adapters/record/record-files.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { recordPage } from '../../adapters/record/record-page.ts';
import { wholeDay } from './whole-day.ts';

test('the three files have safe names, their content types, and belong together', async () => {
  const input = await (await wholeDay()).record();
  const files = recordFiles(input);
  expect(files.map(({ name, contentType }) => [name, contentType])).toEqual([
    ['potbell-gannet-footbridge-2026-06-08.html', 'text/html; charset=utf-8'],
    ['potbell-gannet-footbridge-2026-06-08.csv', 'text/csv; charset=utf-8; header=present'],
    ['potbell-gannet-footbridge-2026-06-08.json', 'application/json; charset=utf-8'],
  ]);
  const [html, csv, json] = files.map(({ body }) => body);
  expect(html).toBe(recordPage(input));
  // Spreadsheets take the file for UTF-8 by this mark alone.
  expect(csv).toBe(`\uFEFF${recordCsv(input)}`);
  expect(json).toBe(recordJson(input));
  const read = readRecord(json ?? '');
  expect(read.ok && html?.includes(read.record.seal.file)).toBe(true);
});

test('a site id from nowhere cannot lead a file out of its folder', async () => {
  const { demoPack } = await import('./crew-day.ts');
  const { pack } = demoPack();
  for (const id of ['../../etc/passwd', 'CON:1|*?"<>', '', 'ÅÄÖ']) {
    const crew = await wholeDay({ pack: { ...pack, site: { ...pack.site, id } } });
    for (const { name } of recordFiles(await crew.record()))
      expect(name).toMatch(/^potbell-[a-z0-9]+(-[a-z0-9]+)*-2026-06-08\.(html|csv|json)$/);
  }
}, 30_000);
