import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, test } from 'vitest';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { assertSettings, assertVersion } from '../../adapters/sqlite/settings.ts';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import { aShift, start, T0 } from '../contracts/fixtures.ts';
import { filledDatabase } from './filled.ts';
import { tempFile } from './temp.ts';

const opened: Database.Database[] = [];
afterEach(() => {
  for (const db of opened.splice(0)) db.close();
});

function open(file: string): Database.Database {
  const db = openDatabase({ file });
  opened.push(db);
  return db;
}

/** What is thrown when the file is opened. */
function refusal(file: string): unknown {
  try {
    open(file);
  } catch (error) {
    return error;
  }
  throw new Error('it was opened');
}

const damaged = (message: RegExp) => ({
  name: 'StoreDamaged',
  what: 'file',
  shift: null,
  message: expect.stringMatching(message),
});
const unavailable = (reason: string, message: RegExp) => ({
  name: 'StoreUnavailable',
  reason,
  message: expect.stringMatching(message),
});

describe('settings', () => {
  test('every connection is durable, exclusive and checked, at first and again', () => {
    const file = tempFile();
    for (const _ of ['first', 'again']) {
      const db = openDatabase({ file });
      const setting = (name: string) => db.pragma(name, { simple: true });
      expect(setting('synchronous')).toBe(2);
      expect(setting('journal_mode')).toBe('wal');
      expect(setting('locking_mode')).toBe('exclusive');
      expect(setting('foreign_keys')).toBe(1);
      expect(setting('journal_size_limit')).toBe(16 * 1024 * 1024);
      db.close();
    }
  });

  test('left alone, the driver falls back to synchronous = NORMAL: the assertion is not idle', () => {
    const file = tempFile();
    open(file).close();
    const db = new Database(file);
    opened.push(db);
    db.prepare('SELECT * FROM shift').all();
    expect(db.pragma('synchronous', { simple: true })).toBe(1);
  });

  test.each([
    ['synchronous', 'NORMAL'],
    ['foreign_keys', 'OFF'],
    ['journal_size_limit', '-1'],
  ])('a database with %s = %s is refused by name', (setting, value) => {
    const db = open(tempFile());
    expect(() => assertSettings(db)).not.toThrow();
    db.pragma(`${setting} = ${value}`);
    expect(() => assertSettings(db)).toThrow(new RegExp(`did not accept the setting ${setting} =`));
  });

  test('a database that cannot have a write-ahead log is refused', () => {
    const db = new Database(':memory:');
    opened.push(db);
    db.pragma('locking_mode = EXCLUSIVE');
    expect(() => assertSettings(db)).toThrow(/journal_mode = wal \(it says memory\)/);
  });

  // 3.51.3 mends the fault described at https://www.sqlite.org/wal.html#walresetbug
  test('SQLite before 3.51.3 is refused', () => {
    for (const old of ['3.51.2', '3.50.9', '3.9.99', '2.99.99'])
      expect(() => assertVersion(old)).toThrow(old);
    for (const good of ['3.51.3', '3.52.0', '3.53.2', '4.0.0'])
      expect(() => assertVersion(good)).not.toThrow();
  });
});

describe('one process a database', () => {
  const other = (file: string, script: string) => [
    '-e',
    `const db = new (require('better-sqlite3'))(process.argv[1], { timeout: 0 }); ${script}`,
    file,
  ];

  test('another process can neither write nor read while it is open', () => {
    const file = tempFile();
    open(file);
    const script = "try { db.prepare('SELECT * FROM shift').all() } catch (e) { console.log(e.code) }";
    const { stdout } = spawnSync(process.execPath, other(file, script), { encoding: 'utf8' });
    expect(stdout.trim()).toBe('SQLITE_BUSY');
  });

  test('a second opener is told which file and why, and the first goes on', async () => {
    const file = tempFile();
    const store = openSqliteStore({ file });
    expect(() => openSqliteStore({ file })).toThrow(
      expect.objectContaining(unavailable('in-use', /another Potbell/)),
    );
    expect(() => openSqliteStore({ file })).toThrow(file);
    await start(store, 'a');
    await store.close();
    open(file);
  });

  test('an owner that is killed gives it back', async () => {
    const file = tempFile();
    open(file).close();
    const hold =
      "db.pragma('locking_mode = EXCLUSIVE'); db.exec('BEGIN IMMEDIATE; COMMIT'); console.log('mine');";
    const owner = spawn(process.execPath, other(file, `${hold} setInterval(() => {}, 1e6)`));
    await once(owner.stdout, 'data');
    expect(refusal(file)).toMatchObject(unavailable('in-use', /already open/));
    owner.kill('SIGKILL');
    await once(owner, 'exit');
    open(file);
  });
});

describe('migrations', () => {
  test('the steps taken are logged once', () => {
    const file = tempFile();
    const lines: unknown[] = [];
    const log = {
      info: (fields: object) => lines.push(fields),
      warn: (fields: object) => lines.push(fields),
    };
    openDatabase({ file, log }).close();
    expect(lines).toMatchObject([{ steps: ['first tables', 'surface memory'] }]);
    openDatabase({ file, log }).close();
    expect(lines).toHaveLength(1);
  });

  test('a database of a newer Potbell is refused and left as it is', () => {
    const file = tempFile();
    const db = open(file);
    db.exec("INSERT INTO migration VALUES (3, 'from the future')");
    db.close();
    const before = readFileSync(file);
    expect(refusal(file)).toMatchObject(
      unavailable('too-new', /newer Potbell: its tables are at step 3, and this one knows 2/),
    );
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('a list of migrations with a gap is damage', () => {
    const file = tempFile();
    const db = open(file);
    db.exec('DELETE FROM migration');
    db.close();
    expect(refusal(file)).toMatchObject(damaged(/list of migrations reads nothing/));
  });

  test('definitions that were changed are damage', () => {
    const file = tempFile();
    const db = open(file);
    db.exec('DROP INDEX outbox_unsettled; CREATE INDEX outbox_unsettled ON outbox (surface)');
    db.close();
    expect(refusal(file)).toMatchObject(damaged(/table definitions/));
  });
});

describe('what is no Potbell database', () => {
  test('another program’s database', () => {
    const file = tempFile();
    const db = new Database(file);
    db.exec('CREATE TABLE recipes (name TEXT)');
    db.close();
    expect(refusal(file)).toMatchObject(damaged(/not one that Potbell wrote/));
  });

  test('a text file', () => {
    const file = tempFile(Buffer.from('shopping list\n'.repeat(400)));
    expect(refusal(file)).toMatchObject(damaged(/not a database.*newest copy/));
    expect(readFileSync(file, 'utf8')).toMatch(/^shopping list/);
  });

  test('a folder', () => {
    const file = tempFile();
    mkdirSync(file);
    expect(refusal(file)).toMatchObject(unavailable('no-access', /that it is a file/));
  });

  test('a folder that is not there', () => {
    const file = join(dirname(tempFile()), 'no', 'potbell.db');
    expect(refusal(file)).toMatchObject(unavailable('no-access', /There is no folder .*no for the database/));
  });
});

describe('what would start empty over lost work', () => {
  // Potbell itself never leaves one: see first-start.test.ts.
  test('an empty file', () => {
    const file = tempFile(Buffer.alloc(0));
    expect(refusal(file)).toMatchObject(damaged(/the file is empty/));
    expect(readFileSync(file)).toHaveLength(0);
  });

  test('a missing file whose write-ahead log is still there', () => {
    const file = tempFile();
    writeFileSync(`${file}-wal`, 'work of the morning');
    expect(refusal(file)).toMatchObject(damaged(/the file is gone/));
    expect(existsSync(file)).toBe(false);
    expect(readFileSync(`${file}-wal`, 'utf8')).toBe('work of the morning');
  });

  test('a file cut short anywhere', async () => {
    const good = await filledDatabase();
    for (let size = good.length - 1; size > 0; size -= 4001) {
      const file = tempFile(good);
      truncateSync(file, size);
      expect(refusal(file), `cut to ${size} bytes`).toMatchObject({ name: 'StoreDamaged', what: 'file' });
      expect(readFileSync(file).length, 'kept for repair').toBe(size);
    }
  });
});

test('everything is there after closing and opening again, also through a link', async () => {
  const file = tempFile();
  const first = openSqliteStore({ file });
  await start(first, 'a', { nextBell: T0 + 0.25 });
  await first.close();
  const name = join(dirname(file), 'link.db');
  symlinkSync(file, name);
  const again = openSqliteStore({ file: name });
  expect(await again.shift('a')).toEqual(aShift('a', 1));
  expect(await again.earliestBell()).toBe(T0 + 0.25);
  expect(await again.journal('a')).toHaveLength(1);
  await again.close();
  rmSync(name);
});
