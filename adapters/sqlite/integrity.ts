import Database from 'better-sqlite3';
import { damagedFile } from './errors.ts';
import type { Log } from './log.ts';
import { migrateEmpty } from './migrate.ts';

/**
 * Before anything is written: do the pages hang together, and does every index agree with its table?
 * Indexes are copies of what the tables say, so a damaged one alone is built anew and reported in the log. A crew
 * should not stand without its bells for it.
 */
export function checkPages(db: Database.Database, file: string, log: Log | undefined): void {
  const problems = check(db, 'integrity_check');
  if (problems.length === 0) return;
  const found = problems.slice(0, 3).join('; ');
  if (check(db, 'quick_check').length > 0 || !rebuiltIndexes(db)) throw damagedFile(file, found);
  log?.warn(
    { file, found },
    'An index of the database was damaged. It was built anew from its table; check the disk.',
  );
}

function rebuiltIndexes(db: Database.Database): boolean {
  try {
    db.exec('REINDEX');
  } catch (error) {
    // Two rows with one key: then it is the table that is wrong.
    if (error instanceof Database.SqliteError && error.code.startsWith('SQLITE_CONSTRAINT')) return false;
    throw error;
  }
  // An index that names a row its table has lost must not be healed by forgetting the row.
  const orphans = db.prepare('PRAGMA foreign_key_check').all();
  return check(db, 'integrity_check').length === 0 && orphans.length === 0;
}

function check(db: Database.Database, pragma: 'integrity_check' | 'quick_check'): readonly string[] {
  const rows = db.prepare<[], string>(`PRAGMA ${pragma}(20)`).pluck().all();
  return rows.filter((row) => row !== 'ok');
}

/** The table definitions are text in the file as well: one changed letter can turn a rule off without any error. */
export function checkSchema(db: Database.Database, file: string): void {
  const model = new Database(':memory:');
  try {
    migrateEmpty(model);
    if (schemaOf(db) !== schemaOf(model))
      throw damagedFile(file, 'its table definitions are not the ones Potbell wrote');
  } finally {
    model.close();
  }
}

function schemaOf(db: Database.Database): string {
  const rows = db
    .prepare<[], object>('SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name')
    .all();
  return JSON.stringify(rows);
}
