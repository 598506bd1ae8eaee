import { verifyChain } from '../host/chain.ts';
import { differences, shortly } from './difference.ts';
import { hasOneMeaning } from './one-meaning.ts';
import { readRecord } from './read-record.ts';
import { fileSeal, type ShiftRecord } from './record-document.ts';
import { instantOfStamp } from './stamp.ts';
import { summaryOf } from './summary/summary.ts';
import { type Walk, walkJournal } from './walk.ts';

export interface Verified {
  readonly ok: boolean;
  /** Journal lines in the file. */
  readonly lines: number;
  /** Hash of the last journal line in the file. */
  readonly head: string | null;
  /** What is not as Potbell wrote it, in words; empty when all holds. */
  readonly problems: readonly string[];
}

const MOST_DIFFERENCES = 10;

/**
 * Check a record file by itself: walk the chain from its first line, replay the journal, and work the summary out again,
 * so that a changed figure is found in either place. Never throws.
 *
 * Somebody who makes every hash anew can still write a file that is true in itself. That is found only against a head
 * kept elsewhere: give `expectedHead` from the signed page, the store, or the next shift's first line.
 */
export function verifyRecord(text: string, expectedHead?: string): Verified {
  const read = readRecord(text);
  if (!read.ok) return { ok: false, lines: 0, head: null, problems: [read.problem] };
  const { record } = read;
  const head = record.journal.at(-1)?.hash ?? null;
  const problems = [
    ...spelling(text),
    ...chain(record),
    ...ends(record, head, expectedHead),
    ...follows(record),
    ...(fileSeal(record) === record.seal.file
      ? []
      : ['The seal of the file does not match: something in the file was changed after it was made.']),
  ];
  return { ok: problems.length === 0, lines: record.journal.length, head, problems };
}

function spelling(text: string): readonly string[] {
  if (hasOneMeaning(text)) return [];
  return [
    'The text of the file is not spelled as Potbell spells it, for example with a name given twice: people and programs could read it differently.',
  ];
}

function chain({ summary, journal }: ShiftRecord): readonly string[] {
  const check = verifyChain(summary.shift, journal);
  return check.ok ? [] : [`Journal line ${check.line} does not hold: ${check.why}.`];
}

function ends(
  { seal, journal }: ShiftRecord,
  head: string | null,
  expectedHead: string | undefined,
): readonly string[] {
  const problems: string[] = [];
  if (seal.lines !== journal.length)
    problems.push(`The file was sealed with ${seal.lines} journal lines and holds ${journal.length}.`);
  if (seal.head !== head) problems.push('The last journal line is not the one the file was sealed with.');
  if (expectedHead !== undefined && expectedHead.trim().toLowerCase() !== head)
    problems.push(`The journal ends with ${head}, not with the seal you gave.`);
  return problems;
}

function follows(record: ShiftRecord): readonly string[] {
  const { summary, journal, shown } = record;
  let walk: Walk;
  let again: unknown;
  try {
    walk = walkJournal(
      summary.shift,
      journal.map(({ event }) => event),
    );
    again = summaryOf(walk, instantOfStamp(record.madeAt));
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
  const found = differences(summary, again, MOST_DIFFERENCES + 1).map(
    ({ path, left, right }) =>
      `The summary does not follow from the journal at ${path}: the file says ${shortly(left)}, the journal gives ${shortly(right)}.`,
  );
  if (found.length > MOST_DIFFERENCES)
    found.splice(MOST_DIFFERENCES, 1, 'The summary differs in more places than these.');
  const last = walk.end.seq;
  const strays = shown.filter(({ line }) => line !== null && line > last).map(({ id }) => id);
  const stray =
    strays.length === 0
      ? []
      : [`Messages were shown for journal lines that are not in the file: ${strays.slice(0, 3).join(', ')}.`];
  return [...found, ...stray];
}
