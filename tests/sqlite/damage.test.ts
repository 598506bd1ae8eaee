import { readFileSync, writeFileSync } from 'node:fs';
import type Database from 'better-sqlite3';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { link } from '../../adapters/host/chain.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { sqliteStore } from '../../adapters/sqlite/store.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import type { Store } from '../../src/ports.ts';
import { aCommit, aDelivery, anEvent, aShift, MIN, put, start, T0 } from '../contracts/fixtures.ts';
import { everythingIn, fill } from './filled.ts';
import { tempFile } from './temp.ts';

let file: string;
let db: Database.Database;
let store: Store;

beforeEach(() => {
  file = tempFile();
  db = openDatabase({ file });
  store = sqliteStore(db);
});
afterEach(() => store.close());

/** Change rows behind the store's back, as a faulty disk or a person with a database tool would. */
function tamper(sql: string, ...values: unknown[]): void {
  db.pragma('foreign_keys = OFF');
  expect(db.prepare(sql).run(...values).changes).toBeGreaterThan(0);
}

const damage = (what: string, shift = 'a') => ({
  name: 'StoreDamaged',
  what,
  shift,
  message: expect.stringContaining(file),
});
const load = (shift: string) => store.transact(shift, (loaded) => ({ commit: null, answer: loaded.shift }));
const replay = (events: readonly JournalEvent[]) => ({ shift: aShift('a', events.length), nextBell: T0 });

describe('a shift’s row and state', () => {
  beforeEach(async () => {
    await put(store, aCommit('a', 1, 3, { nextBell: T0 }));
    await start(store, 'b', { nextBell: T0 + MIN });
  });

  test.each([
    ['next_bell = next_bell + 4294967296', 'one bit of the next bell, 50 days later'],
    ['next_bell = next_bell - 1', 'one bit of the next bell, 1 ms earlier'],
    ['next_bell = NULL', 'no next bell any more'],
    ["status = 'opeo'", 'one bit of the status'],
    ["head = replace(head, 'a', 'b')", 'the head'],
    ['seq = seq + 1', 'the sequence number'],
    ["date = '2026-03-08'", 'the date'],
    ["row_sha = ''", 'the checksum itself'],
  ])('%s is noticed, keeps no other shift from ringing, and is mended from the journal', async (change) => {
    tamper(`UPDATE shift SET ${change} WHERE id = 'a'`);
    await expect(load('a')).rejects.toMatchObject(damage('snapshot'));
    await expect(store.shift('a')).rejects.toMatchObject(damage('snapshot'));
    await expect(store.shifts()).rejects.toMatchObject(damage('snapshot'));
    await expect(store.journal('a')).rejects.toMatchObject(damage('snapshot'));

    expect(await store.earliestBell()).toBe(0);
    expect(await store.due(T0 + MIN)).toEqual([{ shift: 'b', at: T0 + MIN }]);
    await expect(store.due(T0)).rejects.toMatchObject(damage('snapshot'));
    expect(await load('b')).toEqual(aShift('b', 1));

    await store.repairSnapshot('a', replay);
    expect(await store.shift('a')).toEqual(aShift('a', 3));
    expect(await store.due(T0)).toEqual([{ shift: 'a', at: T0 }]);
    await put(store, aCommit('a', 4, 4));
  });

  test.each([
    ["UPDATE snapshot SET json = replace(json, '2026', '2027') WHERE shift = 'a'", 'a digit of the state'],
    ["UPDATE snapshot SET json = '{' WHERE shift = 'a'", 'a state that is not JSON any more'],
    ["DELETE FROM snapshot WHERE shift = 'a'", 'a state that is gone'],
    ["DELETE FROM shift WHERE id = 'a'", 'a row that is gone'],
  ])('%s is noticed and mended from the journal', async (sql) => {
    tamper(sql);
    await expect(load('a')).rejects.toMatchObject(damage('snapshot'));
    await expect(store.shift('a')).rejects.toMatchObject(damage('snapshot'));
    await store.repairSnapshot('a', replay);
    expect(await load('a')).toEqual(aShift('a', 3));
    expect(await store.due(T0)).toEqual([{ shift: 'a', at: T0 }]);
  });

  test('a damaged shift takes no commit, so nothing is built on it', async () => {
    tamper("UPDATE shift SET next_bell = NULL WHERE id = 'a'");
    await expect(put(store, aCommit('a', 4, 4))).rejects.toMatchObject(damage('snapshot'));
    await store.repairSnapshot('a', replay);
    expect(await store.journal('a')).toHaveLength(3);
  });

  test('a state is not mended from a damaged journal', async () => {
    tamper("UPDATE shift SET next_bell = NULL WHERE id = 'a'");
    tamper("UPDATE journal SET json = replace(json, '225', '125') WHERE shift = 'a' AND seq = 2");
    await expect(store.repairSnapshot('a', replay)).rejects.toMatchObject(damage('journal'));
  });

  test('a damaged row does not hide a journal whose tail was cut off', async () => {
    tamper("UPDATE shift SET next_bell = NULL WHERE id = 'a'");
    tamper("DELETE FROM journal WHERE shift = 'a' AND seq = 3");
    await expect(store.repairSnapshot('a', replay)).rejects.toMatchObject(damage('journal'));
  });
});

describe('the journal', () => {
  const length = 6;
  const line = fc.integer({ min: 1, max: length });
  const tampering = fc.oneof(
    fc.record({
      how: fc.constant('edit' as const),
      line,
      column: fc.constantFrom('json', 'hash', 'previous'),
    }),
    fc.record({ how: fc.constant('refile' as const), line, column: fc.constant('command_id') }),
    fc.record({ how: fc.constant('delete' as const), line, column: fc.constant('') }),
    fc.record({ how: fc.constant('swap' as const), line, column: fc.constant('') }),
    fc.record({ how: fc.constant('append' as const), line, column: fc.constant('') }),
  );

  test('every edit, deletion, swap and addition is found, and taken back it holds again', async () => {
    await put(store, aCommit('a', 1, length));
    await start(store, 'b');
    await fc.assert(
      fc.asyncProperty(tampering, async ({ how, line: at, column }) => {
        db.exec('SAVEPOINT before');
        const other = (at % length) + 1;
        if (how === 'edit' || how === 'refile')
          tamper(`UPDATE journal SET ${column} = ${column} || ' ' WHERE shift = 'a' AND seq = ?`, at);
        if (how === 'delete') tamper("DELETE FROM journal WHERE shift = 'a' AND seq = ?", at);
        if (how === 'append') tamper("UPDATE journal SET shift = 'a', seq = ? WHERE shift = 'b'", length + 1);
        if (how === 'swap') {
          tamper("UPDATE journal SET seq = -1 WHERE shift = 'a' AND seq = ?", at);
          tamper("UPDATE journal SET seq = ? WHERE shift = 'a' AND seq = ?", at, other);
          tamper("UPDATE journal SET seq = ? WHERE shift = 'a' AND seq = -1", other);
        }
        await expect(store.journal('a')).rejects.toMatchObject(damage('journal'));
        db.exec('ROLLBACK TO before; RELEASE before');
        expect(await store.journal('a')).toHaveLength(length);
      }),
      { numRuns: 60 },
    );
  });

  test('a cut tail is found before the next line is chained to it', async () => {
    await put(store, aCommit('a', 1, 3));
    tamper("DELETE FROM journal WHERE shift = 'a' AND seq = 3");
    await expect(put(store, aCommit('a', 3, 3))).rejects.toMatchObject(damage('journal'));
    await expect(load('a')).rejects.toThrow('it should end with line 3 and ends with line 2');
  });

  test.each(['json', 'hash', 'previous', 'command_id'])(
    'nothing is chained to a last line whose %s was changed',
    async (column) => {
      await put(store, aCommit('a', 1, 3));
      tamper(`UPDATE journal SET ${column} = ${column} || ' ' WHERE shift = 'a' AND seq = 3`);
      await expect(put(store, aCommit('a', 4, 4))).rejects.toMatchObject(damage('journal'));
    },
  );

  test('nothing is chained to a last line that was swapped for another sound one', async () => {
    await put(store, aCommit('a', 1, 3));
    tamper("DELETE FROM journal WHERE shift = 'a' AND seq = 3");
    const [line] = link('a', journalHead(2) ?? null, [anEvent(3, 'forged')]);
    tamper(
      "INSERT INTO journal (shift, seq, command_id, previous, hash, json) VALUES ('a', 3, 'forged', ?, ?, ?)",
      line?.previous,
      line?.hash,
      line?.json,
    );
    await expect(put(store, aCommit('a', 4, 4))).rejects.toMatchObject(damage('journal'));
    await expect(store.journal('a')).rejects.toMatchObject(damage('journal'));
  });

  function journalHead(seq: number): string | undefined {
    return db
      .prepare<[number], string>("SELECT hash FROM journal WHERE shift = 'a' AND seq = ?")
      .pluck()
      .get(seq);
  }

  test('a journal that is gone is found', async () => {
    await put(store, aCommit('a', 1, 3));
    tamper("DELETE FROM journal WHERE shift = 'a'");
    await expect(load('a')).rejects.toMatchObject(damage('journal'));
    await expect(store.repairSnapshot('a', replay)).rejects.toMatchObject(damage('journal'));
  });
});

describe('the outbox', () => {
  beforeEach(async () => {
    await start(store, 'a', { deliveries: [aDelivery('a', '1'), aDelivery('a', '2'), aDelivery('a', '3')] });
  });

  test.each([
    'not_before = 9e15',
    "state = 'sfnt'",
    "state = 'sending', lease_until = 9e15",
    'attempt = attempt + 1',
    'possible_repeat = 1',
    "last_error = 'never'",
    'settled_at = 1',
    "urgency = 'quieu'",
    "surface = 'boare'",
    "body = replace(body, 'Stop', 'Stow')",
    "body_sha = ''",
  ])('%s is noticed, and holds up no other message', async (change) => {
    tamper(`UPDATE outbox SET ${change} WHERE id = 'a:1'`);
    await expect(store.deliveries({ limit: 9 })).rejects.toMatchObject(damage('outbox'));
    const taken = await store.claim(T0, 9, MIN);
    expect(taken.map(({ id }) => id)).toEqual(['a:2', 'a:3']);
    for (const { id, attempt } of taken)
      expect(await store.settle(id, attempt, { kind: 'sent' }, T0)).toBe(true);
    await expect(store.claim(T0, 9, MIN)).rejects.toMatchObject(damage('outbox'));
    await expect(store.claim(T0, 9, MIN)).rejects.toThrow('"a:1"');
  });

  test('one that waits far ahead is found by asking for the oldest', async () => {
    tamper("UPDATE outbox SET not_before = 9e15 WHERE id = 'a:3'");
    await expect(store.oldestUnsettled()).rejects.toMatchObject(damage('outbox'));
  });

  test('one damaged while it is being sent is not settled', async () => {
    await store.claim(T0, 1, MIN);
    tamper("UPDATE outbox SET lease_until = 9e15 WHERE id = 'a:1'");
    await expect(store.settle('a:1', 1, { kind: 'sent' }, T0)).rejects.toMatchObject(damage('outbox'));
    expect(await store.releaseClaims()).toBe(0);
  });
});

test('a damaged index alone is built anew from its table and reported', async () => {
  await fill(store);
  const root = db
    .prepare("SELECT rootpage FROM sqlite_schema WHERE name = 'outbox_unsettled'")
    .pluck()
    .get() as number;
  const page = db.pragma('page_size', { simple: true }) as number;
  await store.close();
  const bytes = readFileSync(file);
  const sound = tempFile(bytes);
  // A cell of an index page: payload size, header size, two column types, then the first column's text ("bell").
  // https://www.sqlite.org/fileformat2.html#b_tree_pages
  const start = (root - 1) * page;
  const text = start + bytes.readUInt16BE(start + 8) + 4;
  expect(bytes.toString('utf8', text, text + 4)).toBe('bell');
  bytes.write('cell', text);
  writeFileSync(file, bytes);

  const warnings: object[] = [];
  db = openDatabase({ file, log: { info: () => {}, warn: (fields) => warnings.push(fields) } });
  store = sqliteStore(db);
  expect(warnings).toMatchObject([{ file, found: expect.stringContaining('outbox_unsettled') }]);
  const other = sqliteStore(openDatabase({ file: sound }));
  expect(await everythingIn(store)).toBe(await everythingIn(other));
  await other.close();
});
