import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { sql as firstTables } from '../../adapters/sqlite/migrations/0001-first-tables.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { applySettings } from '../../adapters/sqlite/settings.ts';
import { sqliteStore } from '../../adapters/sqlite/store.ts';
import { sqliteSurfaceMemory } from '../../adapters/sqlite/surface-memory.ts';
import { T0 } from '../contracts/fixtures.ts';
import { everythingIn, fill } from './filled.ts';
import { killedCopy, tempFile } from './temp.ts';

const clock = { now: () => T0 };

/** A database as the version with the first step alone made it, with three shifts in it, and still open. */
async function ofTheVersionBefore() {
  const file = tempFile();
  const db = new Database(file);
  applySettings(db);
  db.exec('CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT');
  db.exec(firstTables);
  db.exec("INSERT INTO migration VALUES (1, 'first tables')");
  const store = sqliteStore(db);
  await fill(store);
  return { file, db };
}

/** Open it with this version; everything it holds then, and what was logged. */
async function updated(file: string) {
  const logged: object[] = [];
  const note = (fields: object, text: string) => logged.push({ text, ...fields });
  const db = openDatabase({ file, log: { info: note, warn: note } });
  const memory = sqliteSurfaceMemory(db, clock);
  return { db, memory, logged };
}

const said = (file: string) => ({
  text: 'The database was brought up to date.',
  file,
  steps: ['surface memory'],
});

describe('a database of the version before', () => {
  test('the steps that were released are what they were', () => {
    // Computed once from the file; a released step that differs would make every older database look damaged.
    expect(createHash('sha256').update(firstTables).digest('hex')).toBe(
      'a52150a4e5b604a1e7fcb1f328b14b9bdd8fce1777074797352909089c33dc20',
    );
  });

  test('gets its new table, loses nothing, and the surfaces can use it at once and after a restart', async () => {
    const { file, db } = await ofTheVersionBefore();
    db.close();
    const first = await updated(file);
    expect(first.logged).toEqual([said(file)]);
    await first.memory.put('slack', 'panel', '1');
    first.db.close();
    const second = await updated(file);
    expect(second.logged).toEqual([]);
    expect(await second.memory.get('slack', 'panel')).toBe('1');
    const whole = openDatabase({ file: tempFile() });
    await fill(sqliteStore(whole));
    expect(await everythingIn(sqliteStore(second.db))).toBe(await everythingIn(sqliteStore(whole)));
    whole.close();
    second.db.close();
  });

  test('killed in the middle of its work it is updated with what its log held', async () => {
    const { file, db } = await ofTheVersionBefore();
    const left = killedCopy(file);
    const { db: after, logged } = await updated(left);
    expect(logged).toEqual([said(left)]);
    expect(await everythingIn(sqliteStore(after))).toBe(await everythingIn(sqliteStore(db)));
    after.close();
    db.close();
  });

  test('a step that cannot be taken leaves it as it was, and is taken by the next start', async () => {
    const { file, db } = await ofTheVersionBefore();
    db.exec('CREATE TABLE surface_memory (mine TEXT) STRICT');
    db.close();
    expect(() => openDatabase({ file })).toThrow(/surface_memory already exists/);
    const raw = new Database(file);
    expect(raw.prepare('SELECT number FROM migration').pluck().all()).toEqual([1]);
    raw.exec('DROP TABLE surface_memory');
    raw.close();
    const { db: after, logged } = await updated(file);
    expect(logged).toEqual([said(file)]);
    after.close();
  });
});
