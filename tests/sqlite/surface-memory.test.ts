import { readFileSync, writeFileSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { copyDatabase } from '../../adapters/sqlite/copy.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { sqliteStore } from '../../adapters/sqlite/store.ts';
import { sqliteSurfaceMemory } from '../../adapters/sqlite/surface-memory.ts';
import type { SurfaceMemory } from '../../src/ports.ts';
import { aShift, MIN, start, T0 } from '../contracts/fixtures.ts';
import { killedCopy, tempFile } from './temp.ts';

let now: number;
let file: string;
let db: Database.Database;
let memory: SurfaceMemory;
const clock = { now: () => now };

function open(path: string): void {
  file = path;
  db = openDatabase({ file });
  memory = sqliteSurfaceMemory(db, clock);
}
function restart(): void {
  db.close();
  open(file);
}
beforeEach(() => {
  now = T0;
  open(tempFile());
});
afterEach(() => db.close());

describe('across restarts', () => {
  beforeEach(async () => {
    await memory.put('slack', 'message:1', '{"old":1}');
    await memory.put('slack', 'message:1', '{"channel":"C7"}');
    now += 0.25;
    await memory.put('slack', 'message:%_', '2');
    await memory.put('teams', 'message:1', '3');
    await memory.put('slack', 'gone', '4');
    await memory.remove('slack', 'gone');
  });
  const expectAll = async () => {
    expect(await memory.list('slack', '')).toEqual([
      { key: 'message:%_', value: '2', at: T0 + 0.25 },
      { key: 'message:1', value: '{"channel":"C7"}', at: T0 },
    ]);
    expect(await memory.list('teams', '')).toEqual([{ key: 'message:1', value: '3', at: T0 + 0.25 }]);
  };

  test('closed and opened again on the same file', async () => {
    restart();
    await expectAll();
    now = T0 + MIN;
    expect(await memory.forget('slack', '', T0 + 0.25)).toBe(1);
    restart();
    expect(await memory.list('slack', '')).toMatchObject([{ key: 'message:%_' }]);
    await memory.put('slack', 'message:1', '5');
    expect(await memory.get('slack', 'message:1')).toBe('5');
  });

  test('killed at once after it resolved', async () => {
    const left = killedCopy(file);
    db.close();
    open(left);
    await expectAll();
  });

  test('a copy holds it too', async () => {
    const to = tempFile();
    await copyDatabase(db, to);
    db.close();
    open(to);
    await expectAll();
  });
});

describe('beside the store on one database', () => {
  test('neither disturbs the other', async () => {
    const store = sqliteStore(db);
    await start(store, 'a', { nextBell: T0 });
    await memory.put('slack', 'a', '1');
    expect(await store.shift('a')).toEqual(aShift('a', 1));
    expect(await memory.forget('slack', '', T0 + 1)).toBe(1);
    expect(await store.earliestBell()).toBe(T0);
    expect(await store.journal('a')).toHaveLength(1);
  });

  test('inside a transaction of the store nothing can be put: it would not be durable yet', async () => {
    const store = sqliteStore(db);
    const put = await store.transact('a', () => ({
      commit: null,
      answer: [memory.put('slack', 'a', '1').then(String, String)],
    }));
    expect(await Promise.all(put)).toEqual([expect.stringMatching(/used inside a transaction of the store/)]);
    expect(await memory.list('slack', '')).toEqual([]);
  });

  test('closed, every method says so by rejection', async () => {
    db.close();
    const asked = [
      memory.get('slack', 'a'),
      memory.put('slack', 'a', '1'),
      memory.remove('slack', 'a'),
      memory.list('slack', ''),
      memory.forget('slack', '', T0),
    ];
    const found = await Promise.allSettled(asked);
    for (const one of found)
      expect(one).toMatchObject({
        status: 'rejected',
        reason: { message: 'This surface memory is closed.' },
      });
  });

  test('a full disk is said; what was there stays, and there is a way on once there is room', async () => {
    await memory.put('slack', 'a', '"old"');
    db.pragma(`max_page_count = ${db.pragma('page_count', { simple: true })}`);
    await expect(memory.put('slack', 'a', 'x'.repeat(20_000))).rejects.toMatchObject({
      name: 'StoreUnavailable',
      reason: 'full',
      message: expect.stringContaining(file),
    });
    expect(await memory.get('slack', 'a')).toBe('"old"');
    db.pragma('max_page_count = 100000');
    await memory.put('slack', 'a', 'x'.repeat(20_000));
    expect(await memory.get('slack', 'a')).toHaveLength(20_000);
  });
});

describe('a row that is not what was put', () => {
  beforeEach(async () => {
    await memory.put('slack', 'message:1', '{"channel":"C1"}');
    now += MIN;
    await memory.put('slack', 'message:2', '{"channel":"C2"}');
  });
  /** The message names the file, the surface and the key. */
  const damage = (key = 'message:1', surface = 'slack') => ({
    name: 'SurfaceMemoryDamaged',
    message: expect.stringContaining(`In ${file} what the surface "${surface}" kept under "${key}" is not`),
  });
  const other = { key: 'message:2', value: '{"channel":"C2"}', at: T0 + MIN };
  /** As a faulty disk or a person with a database tool would. */
  const tamper = (change: string) =>
    expect(db.prepare(`UPDATE surface_memory SET ${change} WHERE place = 1`).run().changes).toBe(1);

  const changes = [
    ["value = replace(value, 'C1', 'C2')", 'another channel'],
    ["value = ''", 'no text'],
    ["value = CAST(X'7B22FF' AS TEXT)", 'text that is no UTF-8'],
    ['at = at + 1', 'a time 1 ms later'],
    ["row_sha = ''", 'no checksum'],
  ] as const;

  test.each(changes)('%s: get says so once, then it is forgotten and can be put anew', async (change) => {
    tamper(change);
    await expect(memory.get('slack', 'message:1')).rejects.toMatchObject(damage());
    restart();
    expect(await memory.get('slack', 'message:1')).toBeNull();
    expect(await memory.list('slack', '')).toEqual([other]);
    await memory.put('slack', 'message:1', '3');
    expect(await memory.get('slack', 'message:1')).toBe('3');
  });

  test.each(changes)('%s: so does list, and the others stay', async (change) => {
    tamper(change);
    expect(await memory.get('slack', 'message:2'), 'the others do not mind').toBe(other.value);
    await expect(memory.list('slack', 'message:')).rejects.toMatchObject(damage());
    expect(await memory.list('slack', 'message:')).toEqual([other]);
  });

  test.each(changes)('%s: so does forget, and has done its work', async (change) => {
    tamper(change);
    await memory.put('slack', 'message:3', '3');
    await expect(memory.forget('slack', '', T0 + MIN + 1)).rejects.toMatchObject(damage());
    expect(await memory.list('slack', '')).toEqual([]);
  });

  test.each(changes)('%s: put and remove do not stumble over it', async (change) => {
    tamper(change);
    await memory.put('slack', 'message:1', '3');
    expect(await memory.get('slack', 'message:1')).toBe('3');
    tamper("value = 'damaged'");
    await memory.remove('slack', 'message:1');
    expect(await memory.list('slack', '')).toEqual([other]);
  });

  test.each([
    ["key = 'message:0'", 'message:0'],
    ["key = 'message'", 'message'],
    ["key = CAST(X'6D65FF' AS TEXT)", 'me\ufffd'],
  ])('%s: what now goes by another name is given to nobody under it', async (change, key) => {
    tamper(change);
    await expect(memory.list('slack', 'm')).rejects.toMatchObject(damage(key));
    expect(await memory.list('slack', '')).toEqual([other]);
    expect(db.prepare('SELECT count(*) FROM surface_memory').pluck().get()).toBe(1);
  });

  test('what now belongs to another surface is given to neither', async () => {
    tamper("surface = 'teams'");
    expect(await memory.get('slack', 'message:1')).toBeNull();
    await expect(memory.get('teams', 'message:1')).rejects.toMatchObject(damage('message:1', 'teams'));
    expect(await memory.list('teams', '')).toEqual([]);
  });

  test('many are named by three and a number, and all of them removed', async () => {
    for (const key of ['a', 'b', 'c']) await memory.put('slack', key, '1');
    db.exec("UPDATE surface_memory SET value = '?'");
    await expect(memory.list('slack', '')).rejects.toMatchObject({
      name: 'SurfaceMemoryDamaged',
      message: expect.stringMatching(/"a", "b", "c" and 2 more/),
    });
    expect(await memory.list('slack', '')).toEqual([]);
  });

  test('every bit of a value in the file is noticed', async () => {
    await memory.put('slack', 'z', '"Qx7channel"');
    db.close();
    const good = readFileSync(file);
    const at = good.indexOf('"Qx7channel"');
    expect(at).toBeGreaterThan(0);
    for (let bit = 0; bit < '"Qx7channel"'.length * 8; bit += 1) {
      const bytes = Buffer.from(good);
      bytes[at + (bit >> 3)] = (bytes[at + (bit >> 3)] ?? 0) ^ (1 << (bit & 7));
      writeFileSync(file, bytes);
      open(file);
      await expect(memory.get('slack', 'z'), `bit ${bit}`).rejects.toMatchObject(damage('z'));
      db.close();
    }
  });
});
