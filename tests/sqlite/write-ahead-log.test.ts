import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import type { Store } from '../../src/ports.ts';
import { aCommit, put, start } from '../contracts/fixtures.ts';
import { killedCopy, tempFile } from './temp.ts';

const commits = 12;
let running: Store;
let main: Buffer;
let log: Buffer;

beforeAll(async () => {
  const file = tempFile();
  running = openSqliteStore({ file });
  await start(running, 'a');
  for (let seq = 2; seq <= commits; seq += 1) await put(running, aCommit('a', seq, seq));
  const copy = killedCopy(file);
  main = readFileSync(copy);
  log = readFileSync(`${copy}-wal`);
});
afterAll(() => running.close());

/** Number of confirmed entries found after a start with this log, or the refusal. */
async function entriesWith(bytes: Buffer): Promise<number | Error> {
  const file = tempFile(main);
  writeFileSync(`${file}-wal`, bytes);
  let store: Store | undefined;
  try {
    store = openSqliteStore({ file });
    return (await store.journal('a')).length;
  } catch (error) {
    expect(readFileSync(`${file}-wal`).equals(bytes), 'the log is kept').toBe(true);
    return error as Error;
  } finally {
    await store?.close();
  }
}

function changed(at: number): Buffer {
  const bytes = Buffer.from(log);
  bytes[at] = (bytes[at] ?? 0) ^ 0x10;
  return bytes;
}

const refused = { name: 'StoreDamaged', what: 'file', message: expect.stringMatching(/write-ahead log/) };
const frame = 24 + 4096;

describe('after a kill everything confirmed is in the write-ahead log', () => {
  test('a whole log: every entry is there', async () => {
    expect(await entriesWith(log)).toBe(commits);
  });

  test('a log cut anywhere, as by a power cut before the sync, is a true beginning', async () => {
    const found: (number | Error)[] = [];
    for (let size = log.length; size > 32; size -= frame + 517)
      found.push(await entriesWith(log.subarray(0, size)));
    expect(found[0]).toBe(commits);
    expect(found[1]).toBe(commits - 1);
    const counts = found.map((entries) => (typeof entries === 'number' ? entries : String(entries)));
    expect(counts.every((entries) => typeof entries === 'number')).toBe(true);
    expect(found).toEqual(found.toSorted((x, y) => Number(y) - Number(x)));
  });

  test('a log damaged in the middle is refused: confirmed entries would be missing without a word', async () => {
    const last = log.length - frame * 8;
    for (let at = 40; at < last; at += frame * 5 + 331) {
      expect(await entriesWith(changed(at)), `byte ${at}`).toMatchObject(refused);
    }
  });

  test.each([0, 8, 16, 24])('a log whose head is damaged at byte %i is refused', async (at) => {
    expect(await entriesWith(changed(at))).toMatchObject(refused);
  });

  test('damage inside the last commit looks like an interrupted one and costs that one at most', async () => {
    expect(await entriesWith(changed(log.length - 100))).toBe(commits - 1);
  });

  test('a log that was begun anew over an older one is sound', async () => {
    const file = tempFile();
    const store = openSqliteStore({ file });
    for (let seq = 1; seq <= 400; seq += 1) await put(store, aCommit('a', seq, seq));
    const copy = killedCopy(file);
    await store.close();
    const bytes = readFileSync(`${copy}-wal`);
    const salts = new Set<string>();
    for (let at = 32; at < bytes.length; at += frame) salts.add(bytes.toString('hex', at + 8, at + 16));
    expect(salts.size, 'frames of the older log are still behind the new ones').toBe(2);
    const again = openSqliteStore({ file: copy });
    expect(await again.journal('a')).toHaveLength(400);
    await again.close();
  });
});

test('an empty log beside a database is sound', async () => {
  const file = tempFile();
  const store = openSqliteStore({ file });
  await start(store, 'a');
  await store.close();
  writeFileSync(`${file}-wal`, '');
  truncateSync(`${file}-wal`, 0);
  const again = openSqliteStore({ file });
  expect(await again.journal('a')).toHaveLength(1);
  await again.close();
});
