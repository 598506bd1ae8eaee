import { z } from 'zod';
import { canonicalJson } from '../../src/journal/canonical-json.ts';
import type { ChainedEvent } from '../../src/ports.ts';
import { genesis, sha256 } from '../host/chain.ts';
import type { RecordInput } from './record-input.ts';
import { shownOf, shownSchema } from './shown.ts';
import { stamp, stampSchema } from './stamp.ts';
import { type Summary, summaryOf, summarySchema } from './summary/summary.ts';
import { type Walk, walkJournal } from './walk.ts';

export const FORMAT = 'potbell-shift-record';
/** Goes up when a field changes its meaning, or when the trade arithmetic gives other figures for the same journal. */
export const VERSION = 4;

const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 hash has 64 digits 0 to 9 and a to f');

/** Only the frame of an event is checked here: whether it is one of Potbell's is found out by replaying it. */
const chainedSchema = z.strictObject({
  event: z.strictObject({
    seq: z.int().positive(),
    at: z.number(),
    by: z.looseObject({ kind: z.string() }),
    commandId: z.string(),
    body: z.looseObject({ type: z.string() }),
  }),
  previous: sha256Schema,
  hash: sha256Schema,
});

export const recordSchema = z.strictObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  madeAt: stampSchema,
  summary: summarySchema,
  shown: z.array(shownSchema),
  /** The journal as it was written: each line with the seal before it and its own. */
  journal: z.array(chainedSchema).min(1, 'a record holds at least one journal line'),
  seal: z.strictObject({
    lines: z.int().positive(),
    /** Hash of the last journal line. The printed page shows the same. */
    head: sha256Schema,
    /** Hash of everything else in this file, the messages that were shown included. */
    file: sha256Schema,
  }),
});

/** A record read back. The journal is typed as ours; only `verifyRecord` says whether it is. */
export type ShiftRecord = Omit<z.infer<typeof recordSchema>, 'journal'> & {
  readonly journal: readonly ChainedEvent[];
};

export interface MadeRecord {
  readonly record: ShiftRecord;
  readonly walk: Walk;
}

/** @throws Error when the journal is empty or cannot be replayed. */
export function makeRecord(input: RecordInput): MadeRecord {
  const { shift, madeAt } = input;
  const journal = input.journal.map(({ event, previous, hash }) => ({ event, previous, hash }));
  const walk = walkJournal(
    shift.id,
    journal.map(({ event }) => event),
  );
  const summary: Summary = summaryOf(walk, madeAt);
  const unsealed = {
    format: FORMAT,
    version: VERSION,
    madeAt: stamp(madeAt, walk.zone),
    summary,
    shown: shownOf(walk, input.deliveries),
    journal,
  } as const;
  const head = journal.at(-1)?.hash ?? genesis(shift.id);
  return { record: { ...unsealed, seal: { lines: journal.length, head, file: fileSeal(unsealed) } }, walk };
}

/** SHA-256 over the canonical JSON of all but the seal itself. */
export function fileSeal(record: object): string {
  return sha256(canonicalJson({ ...record, seal: undefined }));
}
