import type Database from 'better-sqlite3';
import { damagedFile, StoreUnavailable } from './errors.ts';
import { migrations } from './migrations/index.ts';

const applicationId = 0x50_6f_74_62;
const applied = 'CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT';

/**
 * Bring the tables to the newest form, each numbered step in a transaction of its own.
 *
 * @returns the names of the steps taken now
 * @throws StoreUnavailable (`too-new`) when a newer Potbell wrote the database
 * @throws StoreDamaged when it is another program's database, or the list of steps has a gap
 */
export function migrate(db: Database.Database, file: string): readonly string[] {
  const tables = db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  if (tables.length === 0) return migrateEmpty(db);
  if (db.pragma('application_id', { simple: true }) !== applicationId || !tables.includes('migration'))
    throw damagedFile(file, 'it is an SQLite database, but not one that Potbell wrote');
  const numbers = db.prepare<[], number>('SELECT number FROM migration ORDER BY number').pluck().all();
  const last = numbers.at(-1) ?? 0;
  if (last > migrations.length)
    throw new StoreUnavailable(
      'too-new',
      `The database ${file} was written by a newer Potbell: its tables are at step ${last}, and this one knows ` +
        `${migrations.length}. It was left as it is. Use the newer Potbell, or give this one another file.`,
    );
  if (numbers.length === 0 || numbers.some((number, index) => number !== index + 1))
    throw damagedFile(file, `its list of migrations reads ${numbers.join(', ') || 'nothing'}`);
  return apply(db, last);
}

/** All steps, in a database that holds nothing yet. */
export function migrateEmpty(db: Database.Database): readonly string[] {
  return apply(db, 0);
}

function apply(db: Database.Database, from: number): readonly string[] {
  const steps = migrations.slice(from);
  for (const [index, { name, sql }] of steps.entries()) {
    const number = from + index + 1;
    db.transaction(() => {
      if (number === 1) db.exec(applied);
      db.exec(sql);
      db.prepare('INSERT INTO migration (number, name) VALUES (?, ?)').run(number, name);
    }).immediate();
  }
  return steps.map(({ name }) => name);
}
