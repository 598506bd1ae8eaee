import { makeRecord, type ShiftRecord } from './record-document.ts';
import type { RecordInput } from './record-input.ts';

/**
 * The whole record as JSON: summary, messages shown, and the journal with its chain, so that the file verifies by
 * itself. Moments are ISO 8601 on the site's clock with its offset; inside the journal they are epoch milliseconds.
 * @throws Error when the journal is empty or cannot be replayed.
 */
export function recordJson(input: RecordInput): string {
  return recordText(makeRecord(input).record);
}

/** One message and one journal line a row, so that people can search the file line by line. */
export function recordText({ format, version, madeAt, summary, shown, journal, seal }: ShiftRecord): string {
  const parts = [
    field('format', format),
    field('version', version),
    field('madeAt', madeAt),
    `"summary": ${JSON.stringify(summary, null, 1)}`,
    rows('shown', shown),
    rows('journal', journal),
    `"seal": ${JSON.stringify(seal, null, 1)}`,
  ];
  return `{\n${parts.join(',\n')}\n}\n`;
}

function field(name: string, value: string | number): string {
  return `${JSON.stringify(name)}: ${JSON.stringify(value)}`;
}

function rows(name: string, items: readonly unknown[]): string {
  return `${JSON.stringify(name)}: [\n${items.map((item) => JSON.stringify(item)).join(',\n')}\n]`;
}
