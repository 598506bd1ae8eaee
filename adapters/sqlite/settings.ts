import type Database from 'better-sqlite3';
import { StoreUnavailable } from './errors.ts';

/** Before 3.51.3 two connections that wrote and checkpointed at once could damage a database in WAL mode. */
const oldestSqlite = [3, 51, 3] as const;
const walKeptBytes = 16 * 1024 * 1024;

/**
 * Take the file for this process alone and make every commit durable. Ownership comes first: with it no other process
 * can even read, and the operating system gives it back when the process dies in whatever way.
 */
export function applySettings(db: Database.Database): void {
  db.pragma('locking_mode = EXCLUSIVE');
  db.pragma('trusted_schema = OFF');
  db.pragma('cell_size_check = ON');
  db.pragma('journal_mode = WAL');
  // better-sqlite3 is built to fall back to NORMAL in WAL mode at each opening, and NORMAL can lose what was
  // acknowledged in a power cut.
  db.pragma('synchronous = FULL');
  // Without it macOS leaves a commit in the drive's own cache. Other systems ignore it.
  db.pragma('fullfsync = ON');
  db.pragma('foreign_keys = ON');
  db.pragma(`journal_size_limit = ${walKeptBytes}`);
  db.exec('BEGIN IMMEDIATE; COMMIT');
}

/** Reads every setting back. A promise that depends on a setting is not made when the setting did not take. */
export function assertSettings(db: Database.Database): void {
  const wanted = {
    locking_mode: 'exclusive',
    journal_mode: 'wal',
    synchronous: 2,
    foreign_keys: 1,
    journal_size_limit: walKeptBytes,
  };
  for (const [setting, value] of Object.entries(wanted)) {
    const found: unknown = db.pragma(setting, { simple: true });
    if (found !== value)
      throw new StoreUnavailable(
        'settings',
        `The database ${db.name} did not accept the setting ${setting} = ${value} (it says ${String(found)}), ` +
          'and without it a confirmed entry could be lost. Put the file on a local disk.',
      );
  }
}

/** @throws StoreUnavailable when the SQLite in use is older than the oldest without a known way to lose data */
export function assertVersion(version: string): void {
  const found = version.split('.').map(Number);
  for (const [place, least] of oldestSqlite.entries()) {
    const part = found[place] ?? 0;
    if (part > least) return;
    if (part < least)
      throw new StoreUnavailable(
        'settings',
        `SQLite ${version} is in use; Potbell needs ${oldestSqlite.join('.')} or newer, because older ones can ` +
          'damage a database. Run "npm ci" again.',
      );
  }
}

export function sqliteVersion(db: Database.Database): string {
  return db.prepare<[], string>('SELECT sqlite_version()').pluck().get() ?? '0';
}
