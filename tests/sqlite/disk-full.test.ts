import type Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { sqliteStore } from '../../adapters/sqlite/store.ts';
import type { Store } from '../../src/ports.ts';
import { aCommit, aDelivery, aShift, MIN, put, start, T0 } from '../contracts/fixtures.ts';
import { tempFile } from './temp.ts';

let db: Database.Database;
let store: Store;
const big = 'x'.repeat(200_000);

beforeEach(async () => {
  db = openDatabase({ file: tempFile() });
  store = sqliteStore(db);
  await start(store, 'a', { nextBell: T0, deliveries: [aDelivery('a', '1')] });
  db.pragma(`max_page_count = ${db.pragma('page_count', { simple: true })}`);
});
afterEach(() => store.close());

/** `big` sits in one part of the commit at a time, so that the disk runs full at each place of the transaction. */
test.each([
  ['the state', aCommit('a', 2, 2, { shift: aShift('a', 2, { note: big }) })],
  ['the journal', aCommit('a', 2, 60, { shift: aShift('a', 60) })],
  [
    'the outbox',
    aCommit('a', 2, 2, { deliveries: [aDelivery('a', '2'), aDelivery('a', '3', { key: big })] }),
  ],
])('full while writing %s: said so, nothing half written, goes on once there is room', async (_, commit) => {
  const more = { ...commit, nextBell: T0 + MIN, deliveries: [...commit.deliveries, aDelivery('a', '9')] };
  await expect(put(store, more)).rejects.toMatchObject({
    name: 'StoreUnavailable',
    reason: 'full',
    message: expect.stringMatching(/No room left on the disk for the database .*potbell\.db/),
  });
  expect(await store.shift('a')).toEqual(aShift('a', 1));
  expect(await store.journal('a')).toHaveLength(1);
  expect(await store.due(T0)).toEqual([{ shift: 'a', at: T0 }]);
  expect((await store.deliveries({ limit: 9 })).map(({ id }) => id)).toEqual(['a:1']);

  const [claimed] = await store.claim(T0, 9, MIN);
  expect(claimed, 'what was queued before still goes out').toMatchObject({ id: 'a:1' });
  expect(await store.settle('a:1', 1, { kind: 'sent' }, T0)).toBe(true);

  db.pragma('max_page_count = 100000');
  await put(store, more);
  expect(await store.shift('a')).toEqual(more.shift);
  expect(await store.earliestBell()).toBe(T0 + MIN);
  expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
});
