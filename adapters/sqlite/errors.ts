import Database from 'better-sqlite3';
import type { ShiftId } from '../../src/model/id.ts';
import { StoreDamaged } from '../../src/ports.ts';

const reasons = ['in-use', 'too-new', 'full', 'no-access', 'disk-error', 'settings'] as const;

/** The database cannot be used as things stand, though nothing says that its rows are wrong. */
export class StoreUnavailable extends Error {
  override readonly name = 'StoreUnavailable';
  readonly reason: (typeof reasons)[number];

  constructor(reason: StoreUnavailable['reason'], message: string, options?: ErrorOptions) {
    super(message, options);
    this.reason = reason;
  }
}

export function damagedFile(file: string, found: string, cause?: unknown): StoreDamaged {
  return new StoreDamaged(
    `The database ${file} is damaged: ${found}. Nothing was deleted and nothing new was started in its place. ` +
      'Keep this file and the "-wal" file beside it, put the newest copy in its place and start Potbell again.',
    { shift: null, what: 'file' },
    { cause },
  );
}

export function damagedSnapshot(file: string, shift: ShiftId, found: string): StoreDamaged {
  return new StoreDamaged(
    `In ${file} the state of shift "${shift}" is not what was written: ${found}. Its journal can rebuild it; ` +
      'if that fails too, keep this file and restore the newest copy.',
    { shift, what: 'snapshot' },
  );
}

export function damagedJournal(file: string, shift: ShiftId, found: string): StoreDamaged {
  return new StoreDamaged(
    `In ${file} the journal of shift "${shift}" is not what was written: ${found}. It cannot be rebuilt from the ` +
      'rest: keep this file and restore the newest copy.',
    { shift, what: 'journal' },
  );
}

export function damagedDelivery(file: string, shift: ShiftId, id: string): StoreDamaged {
  return new StoreDamaged(
    `In ${file} the queued message "${id}" of shift "${shift}" is not what was written. It is held back and the ` +
      'others go on. Read the journal of the shift for what it was about; keep this file and restore the newest copy.',
    { shift, what: 'outbox' },
  );
}

/** What an error of SQLite means for the person who runs Potbell; every other error is passed through as it is. */
export function explain(error: unknown, file: string): unknown {
  if (!(error instanceof Database.SqliteError)) return error;
  const code = error.code;
  const is = (...families: string[]) => families.some((family) => code.startsWith(`SQLITE_${family}`));
  const unavailable = (reason: StoreUnavailable['reason'], message: string) =>
    new StoreUnavailable(reason, message, { cause: error });
  if (is('CORRUPT', 'NOTADB')) return damagedFile(file, `${error.message} (${code})`, error);
  if (is('BUSY', 'LOCKED'))
    return unavailable(
      'in-use',
      `The database ${file} is already open in another Potbell (or another program). One process a database: ` +
        'stop the other one first, or give this one another file.',
    );
  if (is('FULL'))
    return unavailable(
      'full',
      `No room left on the disk for the database ${file}. Nothing of this change was written. Free some space; ` +
        'Potbell goes on by itself, without a restart.',
    );
  if (is('CANTOPEN', 'READONLY', 'PERM', 'AUTH'))
    return unavailable(
      'no-access',
      `The database ${file} cannot be opened for writing (${error.message}). Check that this user may read and ` +
        'write the file and its folder, and that it is a file.',
    );
  if (is('IOERR'))
    return unavailable(
      'disk-error',
      `The disk failed while reading or writing the database ${file} (${code}). Nothing of this change counts. ` +
        'Check the disk before going on.',
    );
  return error;
}
