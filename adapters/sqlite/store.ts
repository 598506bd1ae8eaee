import type Database from 'better-sqlite3';
import { checkCommit } from '../../src/journal/check-commit.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Commit, Loaded, Store } from '../../src/ports.ts';
import { link } from '../host/chain.ts';
import { damagedJournal, damagedSnapshot, explain } from './errors.ts';
import { journalTable } from './journal.ts';
import { type OpenOptions, openDatabase } from './open-database.ts';
import { outboxTable } from './outbox.ts';
import { type ShiftRow, shiftTable } from './shifts.ts';

/** Open the database and keep it until `close`. @throws StoreUnavailable, StoreDamaged: see `openDatabase` */
export function openSqliteStore(options: OpenOptions): Store {
  return sqliteStore(openDatabase(options));
}

/** The store over a database that `openDatabase` opened. */
export function sqliteStore(db: Database.Database): Store {
  const file = db.name;
  const shifts = shiftTable(db, file);
  const journal = journalTable(db, file);
  const outbox = outboxTable(db, file);

  /** Fails by rejection, never by a throw, and in words that say what to do. */
  async function run<T>(work: () => T): Promise<T> {
    if (!db.open) throw new Error('This store is closed.');
    try {
      return work();
    } catch (error) {
      throw explain(error, file);
    }
  }

  /** All of it or none; once it resolves, the write is on the disk. */
  function write<T>(work: () => T): Promise<T> {
    return run(() => {
      if (db.inTransaction)
        throw new Error('Programming error: a transaction was started inside another one.');
      return db.transaction(work).immediate();
    });
  }

  /** The shift's row when it and the end of its journal belong together; null when there is neither. */
  function rowOf(id: ShiftId): ShiftRow | null {
    const row = shifts.row(id);
    const last = journal.last(id);
    if (!row) {
      if (last) throw damagedSnapshot(file, id, 'its row is missing, though it has a journal');
      return null;
    }
    if (last?.hash !== row.head || last.seq !== row.seq)
      throw damagedJournal(
        file,
        id,
        `it should end with line ${row.seq} and ends with line ${last?.seq ?? 0}`,
      );
    return row;
  }

  function save(id: ShiftId, row: Pick<ShiftRow, 'seq' | 'head'> | null, commit: Commit): void {
    checkCommit(id, row?.seq ?? 0, commit);
    const lines = link(id, row?.head ?? null, commit.events);
    const head = lines.at(-1)?.hash ?? row?.head;
    if (head === undefined) throw new Error(`Programming error: shift "${id}" would have no journal.`);
    shifts.save(commit.shift, head, commit.nextBell);
    journal.append(id, lines);
    outbox.add(commit.deliveries);
  }

  return {
    transact: (id, decide) =>
      write(() => {
        const row = rowOf(id);
        const loaded: Loaded = {
          shift: row ? shifts.state(row) : null,
          head: row?.head ?? null,
          seen: (commandId) => journal.seen(id, commandId),
        };
        const { commit, answer } = decide(loaded);
        if (commit) save(id, row, commit);
        return answer;
      }),
    shift: (id) =>
      run(() => {
        const row = rowOf(id);
        return row ? shifts.state(row) : null;
      }),
    shifts: () => run(() => shifts.summaries()),
    journal: (id) => run(() => journal.read(id, rowOf(id)?.head)),
    // One damaged row must not silence the other shifts: theirs are given first, and it is thrown when no other is due.
    due: (now) =>
      run(() => {
        const { sound, damaged } = shifts.open();
        const bells = sound.flatMap(({ id: shift, next_bell: at }) =>
          at !== null && at <= now ? [{ shift, at }] : [],
        );
        if (bells.length === 0 && damaged) throw damaged;
        return bells.sort((a, b) => a.at - b.at || (a.shift < b.shift ? -1 : 1));
      }),
    // A damaged row counts as due at once, so that whoever waits for the earliest bell asks `due` and is told.
    earliestBell: () =>
      run(() => {
        const { sound, damaged } = shifts.open();
        if (damaged) return 0;
        const times = sound.flatMap(({ next_bell: at }) => (at === null ? [] : [at]));
        return times.length === 0 ? null : Math.min(...times);
      }),
    claim: (now, limit, leaseMs) => write(() => outbox.claim(now, limit, leaseMs)),
    settle: (id, attempt, outcome, now) => write(() => outbox.settle(id, attempt, outcome, now)),
    following: (id) => run(() => outbox.following(id)),
    releaseClaims: () => write(() => outbox.releaseClaims()),
    deliveries: (query) => run(() => outbox.list(query)),
    oldestUnsettled: () => run(() => outbox.oldestUnsettled()),
    repairSnapshot: (id, replay) =>
      write(() => {
        const lines = journal.read(id);
        const last = lines.at(-1);
        if (!last) throw damagedJournal(file, id, 'there is none');
        const { seq } = last.event;
        const row = shifts.unchecked(id);
        // The chain alone cannot see a tail cut off. A damaged row still has two witnesses of where it ended.
        if (row && row.head !== last.hash && row.seq !== seq)
          throw damagedJournal(file, id, `it ends with line ${seq}, and the state tells of line ${row.seq}`);
        const { shift, nextBell } = replay(lines.map(({ event }) => event));
        save(id, { seq, head: last.hash }, { shift, nextBell, events: [], deliveries: [] });
      }),
    close: async () => {
      db.close();
    },
  };
}
