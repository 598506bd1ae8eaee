import { recordCsv } from './record-csv.ts';
import { makeRecord } from './record-document.ts';
import type { RecordInput } from './record-input.ts';
import { recordText } from './record-json.ts';
import { pageText } from './record-page.ts';

export interface RecordFile {
  /** A plain file name, safe on any system: small letters, digits, hyphens and one dot. */
  readonly name: string;
  readonly contentType: string;
  readonly body: string;
}

/** Spreadsheets read a CSV file without it in the letters of the machine, and "°C" comes out as "Â°C". */
const BYTE_ORDER_MARK = '\uFEFF';

/**
 * The record as files to keep together: the page to print, the journal for spreadsheets, and the JSON file that
 * verifies by itself. Made from one reading of the shift, so that the seals on the page are those of the JSON file.
 * @throws Error when the journal is empty or cannot be replayed.
 */
export function recordFiles(input: RecordInput): readonly RecordFile[] {
  const made = makeRecord(input);
  const { site, date } = made.record.summary;
  const name = `potbell-${safe(site.id, 'site')}-${safe(date, 'date')}`;
  return [
    { name: `${name}.html`, contentType: 'text/html; charset=utf-8', body: pageText(made, input) },
    {
      name: `${name}.csv`,
      contentType: 'text/csv; charset=utf-8; header=present',
      body: BYTE_ORDER_MARK + recordCsv(input),
    },
    { name: `${name}.json`, contentType: 'application/json; charset=utf-8', body: recordText(made.record) },
  ];
}

function safe(text: string, otherwise: string): string {
  const plain = text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
  return plain === '' ? otherwise : plain;
}
