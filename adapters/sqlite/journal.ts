import type Database from 'better-sqlite3';
import type { JournalEvent } from '../../src/model/event.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { ChainedEvent } from '../../src/ports.ts';
import { type LinkedLine, sha256, verifyChain } from '../host/chain.ts';
import { damagedJournal } from './errors.ts';

interface JournalRow {
  readonly seq: number;
  readonly command_id: string;
  readonly previous: string;
  readonly hash: string;
  readonly json: string;
}

export type JournalTable = ReturnType<typeof journalTable>;

export function journalTable(db: Database.Database, file: string) {
  const insert = db.prepare<JournalRow & { readonly shift: ShiftId }>(`
    INSERT INTO journal (shift, seq, command_id, previous, hash, json)
    VALUES (@shift, @seq, @command_id, @previous, @hash, @json)`);
  const newest = db.prepare<[string], JournalRow>(
    'SELECT seq, command_id, previous, hash, json FROM journal WHERE shift = ? ORDER BY seq DESC LIMIT 1',
  );
  const byCommand = db
    .prepare<[string, string], number>('SELECT 1 FROM journal WHERE shift = ? AND command_id = ? LIMIT 1')
    .pluck();
  const inOrder = db.prepare<[string], JournalRow>(
    'SELECT seq, command_id, previous, hash, json FROM journal WHERE shift = ? ORDER BY seq',
  );

  function parsed(shift: ShiftId, row: JournalRow): ChainedEvent {
    const { seq, previous, hash, json } = row;
    // Before anything in it is used: past this point the text is the one that was written.
    if (sha256(previous + json) !== hash)
      throw damagedJournal(file, shift, `line ${seq} does not match its hash`);
    const event = JSON.parse(json) as JournalEvent;
    if (seq !== event.seq || row.command_id !== asStored(event.commandId))
      throw damagedJournal(file, shift, `line ${seq} is filed under another number or command`);
    return { event, previous, hash };
  }

  return {
    append(shift: ShiftId, lines: readonly LinkedLine[]): void {
      for (const { event, previous, hash, json } of lines)
        insert.run({ shift, seq: event.seq, command_id: asStored(event.commandId), previous, hash, json });
    },

    /** The end of a shift's journal, verified in itself; null when it has none. The lines before it are for `read`. */
    last(shift: ShiftId): { readonly seq: number; readonly hash: string } | null {
      const row = newest.get(shift);
      if (row) parsed(shift, row);
      return row ?? null;
    },

    seen: (shift: ShiftId, commandId: string): boolean =>
      byCommand.get(shift, asStored(commandId)) !== undefined,

    /** The whole journal of a shift, every line verified; a tail that was cut off is found through `head`. */
    read(shift: ShiftId, head?: string): readonly ChainedEvent[] {
      const lines = inOrder.all(shift).map((row) => parsed(shift, row));
      const check = verifyChain(shift, lines, head);
      if (!check.ok) throw damagedJournal(file, shift, `${check.why}, at line ${check.line}`);
      return lines;
    },
  };
}

/** As it comes back from UTF-8: half a surrogate pair becomes the replacement character. */
function asStored(commandId: string): string {
  return Buffer.from(commandId, 'utf8').toString('utf8');
}
