import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { copyDatabase, keepCopy } from '../../adapters/sqlite/copy.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { sqliteStore } from '../../adapters/sqlite/store.ts';
import { StoreDamaged } from '../../src/ports.ts';
import { aCommit, put } from '../contracts/fixtures.ts';
import { everythingIn, fill, filledDatabase, read } from './filled.ts';
import { tempFile } from './temp.ts';

async function filled() {
  const db = openDatabase({ file: tempFile() });
  const store = sqliteStore(db);
  await fill(store);
  return { db, store };
}
const beside = (file: string) => readdirSync(dirname(file));

test('a copy of a database that is in use holds all of it, in one file', async () => {
  const { db, store } = await filled();
  const to = tempFile();
  expect(await copyDatabase(db, to)).toEqual({ shifts: 3, lines: 33 });
  expect(beside(to)).toEqual(['potbell.db']);
  expect(await read(to)).toBe(await everythingIn(store));
  await store.close();
});

test('the database goes on being written to meanwhile and afterwards, and the copy is whole', async () => {
  const { db, store } = await filled();
  const to = tempFile();
  const copying = copyDatabase(db, to);
  await put(store, aCommit('thursday', 1, 1));
  const { shifts, lines } = await copying;
  // The press came before or after the copy was taken; half of it is in neither.
  expect([
    [3, 33],
    [4, 34],
  ]).toContainEqual([shifts, lines]);
  await put(store, aCommit('friday', 1, 1));
  expect((await store.shifts()).map(({ id }) => id)).toContain('friday');
  await store.close();
});

test('a file that is there is never written over', async () => {
  const { db, store } = await filled();
  const to = tempFile(Buffer.from('last week'));
  await expect(copyDatabase(db, to)).rejects.toThrow(/There is a file .* already.*new name/);
  expect(readFileSync(to, 'utf8')).toBe('last week');
  expect(beside(to)).toEqual(['potbell.db']);
  await store.close();
});

test('a copy that does not hold is named and leaves no file', async () => {
  const whole = await filledDatabase();
  for (const bytes of [whole.subarray(0, whole.length - 4096), Buffer.alloc(0), Buffer.from('no database')]) {
    const to = tempFile();
    await expect(keepCopy(to, async (part) => writeFileSync(part, bytes))).rejects.toThrow(StoreDamaged);
    expect(beside(to)).toEqual([]);
  }
});

test('one changed letter in what people wrote is found in the copy', async () => {
  const whole = await filledDatabase();
  const place = whole.indexOf('word-500');
  expect(place).toBeGreaterThan(0);
  whole[place] = 'W'.charCodeAt(0);
  const to = tempFile();
  await expect(keepCopy(to, async (part) => writeFileSync(part, whole))).rejects.toThrow(
    /The copy did not hold and was deleted/,
  );
  expect(existsSync(to)).toBe(false);
});

test('a folder that is not there is said, and nothing is made', async () => {
  const { db, store } = await filled();
  const to = join(dirname(tempFile()), 'none', 'copy.db');
  await expect(copyDatabase(db, to)).rejects.toThrow(/ENOENT/);
  expect(existsSync(dirname(to))).toBe(false);
  await store.close();
});
