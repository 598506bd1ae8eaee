import type Database from 'better-sqlite3';
import { canonicalJson } from '../../src/journal/canonical-json.ts';
import { completeShift } from '../../src/journal/older.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Instant } from '../../src/model/time.ts';
import type { ShiftSummary, StoreDamaged } from '../../src/ports.ts';
import { sha256 } from '../host/chain.ts';
import { damagedSnapshot } from './errors.ts';

/** A shift's small row; its state is kept apart, so that looking for the next bell does not read every state. */
export interface ShiftRow {
  readonly id: ShiftId;
  readonly date: string;
  readonly status: Shift['status'];
  readonly seq: number;
  readonly head: string;
  readonly next_bell: Instant | null;
  readonly snapshot_sha: string;
  readonly row_sha: string;
}

export type ShiftTable = ReturnType<typeof shiftTable>;

export function shiftTable(db: Database.Database, file: string) {
  const one = db.prepare<[string], ShiftRow>('SELECT * FROM shift WHERE id = ?');
  const all = db.prepare<[], ShiftRow>('SELECT * FROM shift ORDER BY date DESC, id');
  // No index and no comparison in SQL: a damaged time or status would only make its row stay away.
  const notClosed = db.prepare<[], ShiftRow>("SELECT * FROM shift NOT INDEXED WHERE status <> 'closed'");
  const snapshot = db.prepare<[string], string>('SELECT json FROM snapshot WHERE shift = ?').pluck();
  const putRow = db.prepare<ShiftRow>(`
    INSERT INTO shift (id, date, status, seq, head, next_bell, snapshot_sha, row_sha)
    VALUES (@id, @date, @status, @seq, @head, @next_bell, @snapshot_sha, @row_sha)
    ON CONFLICT (id) DO UPDATE SET date = excluded.date, status = excluded.status, seq = excluded.seq,
      head = excluded.head, next_bell = excluded.next_bell, snapshot_sha = excluded.snapshot_sha,
      row_sha = excluded.row_sha`);
  const putSnapshot = db.prepare<[string, string]>(`
    INSERT INTO snapshot (shift, json) VALUES (?, ?) ON CONFLICT (shift) DO UPDATE SET json = excluded.json`);

  function damage(row: ShiftRow): StoreDamaged {
    return damagedSnapshot(file, row.id, 'its row, which holds the next bell, does not match its checksum');
  }

  function checked(row: ShiftRow): ShiftRow {
    if (!isSound(row)) throw damage(row);
    return row;
  }

  return {
    /** The row as it stands, checked by nobody: for repair only. */
    unchecked: (id: ShiftId): ShiftRow | undefined => one.get(id),

    row(id: ShiftId): ShiftRow | null {
      const row = one.get(id);
      return row ? checked(row) : null;
    },

    state(row: ShiftRow): Shift {
      const json = snapshot.get(row.id);
      if (json === undefined) throw damagedSnapshot(file, row.id, 'it is missing');
      if (sha256(json) !== row.snapshot_sha)
        throw damagedSnapshot(file, row.id, 'it does not match its checksum');
      return completeShift(JSON.parse(json) as Shift);
    },

    summaries: (): readonly ShiftSummary[] =>
      all.all().map((row) => {
        const { id, date, status, head, next_bell: nextBell } = checked(row);
        return { id, date, status, head, nextBell };
      }),

    /** The shifts that may ring, and the first one whose next bell can no longer be believed. */
    open(): { readonly sound: readonly ShiftRow[]; readonly damaged: StoreDamaged | null } {
      const sound: ShiftRow[] = [];
      let damaged: StoreDamaged | null = null;
      for (const row of notClosed.all()) {
        if (isSound(row)) sound.push(row);
        else damaged ??= damage(row);
      }
      return { sound, damaged };
    },

    save(shift: Shift, head: string, nextBell: Instant | null): void {
      const json = canonicalJson(shift);
      const { id, date, status, seq } = shift;
      const row = { id, date, status, seq, head, next_bell: nextBell, snapshot_sha: sha256(json) };
      putRow.run({ ...row, row_sha: rowSha(row) });
      putSnapshot.run(id, json);
    },
  };
}

function isSound(row: ShiftRow): boolean {
  return rowSha(row) === row.row_sha;
}

function rowSha(row: Omit<ShiftRow, 'row_sha'>): string {
  const { id, date, status, seq, head, next_bell, snapshot_sha } = row;
  return sha256(JSON.stringify([id, date, status, seq, head, next_bell, snapshot_sha]));
}
