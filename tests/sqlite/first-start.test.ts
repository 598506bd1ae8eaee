import {
  existsSync,
  linkSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { makeDatabase, removeHalfMade } from '../../adapters/sqlite/new-database.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import { aShift, start } from '../contracts/fixtures.ts';
import { tempFile } from './temp.ts';

/** A first start that is cut off anywhere leaves a file that is complete, or none; never one that stops the next start. */

const names = (file: string) => readdirSync(dirname(file)).sort();
const half = (file: string, end = '') => `${file}-new-0123456789ab${end}`;

function logOf() {
  const lines: { readonly text: string; readonly fields: object }[] = [];
  const note = (fields: object, text: string) => lines.push({ text, fields });
  return { lines, info: note, warn: note };
}

/** The bytes of a new database as it is before it has its name. */
function completeBytes(): Buffer {
  const file = tempFile();
  makeDatabase(file);
  return readFileSync(file);
}

async function expectUsable(file: string): Promise<void> {
  const store = openSqliteStore({ file });
  await start(store, 'a');
  await store.close();
  const again = openSqliteStore({ file });
  expect(await again.shift('a')).toEqual(aShift('a', 1));
  await again.close();
}

describe('what is made', () => {
  test('is complete the moment it has its name, and stands alone', () => {
    const file = tempFile();
    expect(makeDatabase(file)).toEqual(['first tables', 'surface memory']);
    expect(names(file)).toEqual([basename(file)]);
    const db = new Database(file, { readonly: true });
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.prepare('SELECT name FROM migration').pluck().all()).toEqual([
      'first tables',
      'surface memory',
    ]);
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
    db.close();
  });

  test('a new one is said in the log once', () => {
    const file = tempFile();
    const log = logOf();
    openDatabase({ file, log }).close();
    openDatabase({ file, log }).close();
    expect(log.lines).toEqual([
      { text: 'A new database was made.', fields: { file, steps: ['first tables', 'surface memory'] } },
    ]);
  });
});

describe('cut off', () => {
  const states: Readonly<Record<string, (file: string) => void>> = {
    'with nothing written yet': (file) => writeFileSync(half(file), ''),
    'with its log still beside it': (file) => {
      writeFileSync(half(file), completeBytes().subarray(0, 4096));
      writeFileSync(half(file, '-wal'), Buffer.alloc(4152, 7));
      writeFileSync(half(file, '-shm'), Buffer.alloc(32_768));
    },
    'with a rollback journal': (file) => {
      writeFileSync(half(file), Buffer.alloc(4096));
      writeFileSync(half(file, '-journal'), Buffer.alloc(512));
    },
    'torn in the middle by a power cut': (file) =>
      writeFileSync(half(file), completeBytes().fill(0, 4096, 12_288)),
    'complete, without its name': (file) => writeFileSync(half(file), completeBytes()),
  };

  test.each(Object.entries(states))('%s: the next start makes its own', async (_, leave) => {
    const file = tempFile();
    leave(file);
    const left = names(file).length;
    const log = logOf();
    openDatabase({ file, log }).close();
    expect(names(file)).toEqual([basename(file)]);
    const removed = log.lines.filter(({ text }) => text.startsWith('A first start was cut off.'));
    expect(removed).toHaveLength(left);
    await expectUsable(file);
  });

  test('between its name and the removal of the other one: the file is used, the other name goes', async () => {
    const file = tempFile();
    makeDatabase(file);
    linkSync(file, half(file));
    openDatabase({ file }).close();
    expect(names(file)).toEqual([basename(file)]);
    expect(statSync(file).nlink).toBe(1);
    await expectUsable(file);
  });

  test('a disk that refuses: no file, nothing left over, the error as it is', () => {
    const file = tempFile();
    const refusing = () => {
      throw Object.assign(new Error('input/output error'), { code: 'EIO' });
    };
    expect(() => makeDatabase(file, refusing)).toThrow('input/output error');
    expect(names(file)).toEqual([]);
  });

  test('only what has the form of a half-made database is removed', () => {
    const file = tempFile();
    makeDatabase(file);
    const others = [
      `${file}-new-copy`,
      `${file}-new-0123456789ab.bak`,
      join(dirname(file), 'other.db-new-0123456789ab'),
    ];
    for (const other of others) writeFileSync(other, 'kept');
    const log = logOf();
    removeHalfMade(file, log);
    expect(log.lines).toEqual([]);
    for (const other of others) expect(readFileSync(other, 'utf8')).toBe('kept');
  });
});

describe('two first starts at once', () => {
  test('who comes second uses what the first made, with what is in it by then', async () => {
    const file = tempFile();
    const winnerFirst = (from: Parameters<typeof linkSync>[0], to: Parameters<typeof linkSync>[1]) => {
      makeDatabase(file);
      linkSync(from, to);
    };
    expect(makeDatabase(file, winnerFirst)).toBeNull();
    expect(names(file)).toEqual([basename(file)]);
    await expectUsable(file);
  });

  test('an owner that removes the other’s half-made file leaves it no database to overwrite', async () => {
    const file = tempFile();
    const store = openSqliteStore({ file });
    await start(store, 'a');
    await store.close();
    const cleared = (from: Parameters<typeof linkSync>[0], to: Parameters<typeof linkSync>[1]) => {
      removeHalfMade(file, undefined);
      linkSync(from, to);
    };
    expect(makeDatabase(file, cleared)).toBeNull();
    const again = openSqliteStore({ file });
    expect(await again.shift('a')).toEqual(aShift('a', 1));
    await again.close();
  });

  const withoutLinks = () => {
    throw Object.assign(new Error('operation not permitted'), { code: 'EPERM' });
  };

  test('a disk without hard links: renamed instead', async () => {
    const file = tempFile();
    expect(makeDatabase(file, withoutLinks)).toEqual(['first tables', 'surface memory']);
    expect(names(file)).toEqual([basename(file)]);
    await expectUsable(file);
  });

  test('a disk without hard links: a file that is there is not replaced', () => {
    const file = tempFile(Buffer.from('somebody’s'));
    expect(makeDatabase(file, withoutLinks)).toBeNull();
    expect(readFileSync(file, 'utf8')).toBe('somebody’s');
  });
});

test('a link to a file that is not there is refused: its disk may only be missing', () => {
  const file = tempFile();
  const away = join(dirname(file), 'not-mounted.db');
  symlinkSync(away, file);
  expect(() => openDatabase({ file })).toThrow(
    expect.objectContaining({
      name: 'StoreUnavailable',
      reason: 'no-access',
      message: expect.stringMatching(/is a link/),
    }),
  );
  expect(existsSync(away)).toBe(false);
});
