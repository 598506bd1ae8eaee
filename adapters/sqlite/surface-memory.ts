import type Database from 'better-sqlite3';
import {
  type Clock,
  checkRemembered,
  type Remembered,
  type SurfaceMemory,
  SurfaceMemoryDamaged,
} from '../../src/ports.ts';
import { sha256 } from '../host/chain.ts';
import { explain } from './errors.ts';

interface Row extends Remembered {
  readonly place: number;
  readonly surface: string;
  readonly row_sha: string;
}

const columns = 'place, surface, key, value, at, row_sha';

/**
 * What surfaces remember, in a database that `openDatabase` opened and the store may be using as well. Closed with it.
 * @throws StoreUnavailable, by rejection, when the disk is full or fails
 */
export function sqliteSurfaceMemory(db: Database.Database, clock: Clock): SurfaceMemory {
  const file = db.name;
  const one = db.prepare<[string, string], Row>(
    `SELECT ${columns} FROM surface_memory WHERE surface = ? AND key = ?`,
  );
  // By the bytes of UTF-8, which is by code points. LIKE and GLOB would read signs and letters of a key in their own way.
  const from = db.prepare<[string, string], Row>(
    `SELECT ${columns} FROM surface_memory WHERE surface = ? AND key >= ? ORDER BY key`,
  );
  const keep = db.prepare<Omit<Row, 'place'>>(`
    INSERT INTO surface_memory (surface, key, value, at, row_sha) VALUES (@surface, @key, @value, @at, @row_sha)
    ON CONFLICT (surface, key) DO UPDATE SET value = excluded.value, at = excluded.at, row_sha = excluded.row_sha`);
  const drop = db.prepare<[string, string]>('DELETE FROM surface_memory WHERE surface = ? AND key = ?');
  // By place: a damaged key cannot always be written down again.
  const dropAt = db.prepare<[number]>('DELETE FROM surface_memory WHERE place = ?');

  /** All of it or none, on the disk when it resolves. Fails by rejection, in words that say what to do. */
  async function write<T>(work: () => T): Promise<T> {
    if (!db.open) throw new Error('This surface memory is closed.');
    // Inside somebody else's transaction nothing would be durable yet, and it might still be taken back.
    if (db.inTransaction)
      throw new Error('Programming error: a surface memory was used inside a transaction of the store.');
    try {
      return db.transaction(work).immediate();
    } catch (error) {
      throw explain(error, file);
    }
  }

  /** Work with the sound ones of these rows; the others are removed, and then reported by a throw. */
  async function among<T>(
    surface: string,
    rows: () => Iterable<Row>,
    work: (sound: readonly Row[]) => T,
  ): Promise<T> {
    const { answer, lost } = await write(() => {
      const all = [...rows()];
      const damaged = all.filter((row) => !isSound(row));
      for (const { place } of damaged) dropAt.run(place);
      return { answer: work(all.filter(isSound)), lost: damaged.map(({ key }) => key) };
    });
    if (lost.length > 0) throw damagedMemory(file, surface, lost);
    return answer;
  }

  /** Keys with one prefix stand together, so the first one without it ends them. */
  function* withPrefix(surface: string, prefix: string): Iterable<Row> {
    for (const row of from.iterate(surface, prefix)) {
      if (!row.key.startsWith(prefix)) return;
      yield row;
    }
  }

  return {
    async get(surface, key) {
      checkRemembered(surface, { key });
      return among(
        surface,
        () => one.all(surface, key),
        ([row]) => row?.value ?? null,
      );
    },
    async put(surface, key, value) {
      checkRemembered(surface, { key, value });
      const row = { surface, key, value, at: clock.now() };
      await write(() => keep.run({ ...row, row_sha: rowSha(row) }));
    },
    async remove(surface, key) {
      checkRemembered(surface, { key });
      await write(() => drop.run(surface, key));
    },
    async list(surface, prefix) {
      checkRemembered(surface, { prefix });
      return among(
        surface,
        () => withPrefix(surface, prefix),
        (rows) => rows.map(({ key, value, at }) => ({ key, value, at })),
      );
    },
    async forget(surface, prefix, before) {
      checkRemembered(surface, { prefix, before });
      return among(
        surface,
        () => withPrefix(surface, prefix),
        (rows) => {
          const old = rows.filter(({ at }) => at < before);
          for (const { place } of old) dropAt.run(place);
          return old.length;
        },
      );
    },
  };
}

function isSound(row: Row): boolean {
  return rowSha(row) === row.row_sha;
}

/** Covers the names too: what was put for one channel must not come back for another. */
function rowSha({ surface, key, value, at }: Omit<Row, 'place' | 'row_sha'>): string {
  return sha256(JSON.stringify([surface, key, value, at]));
}

function damagedMemory(file: string, surface: string, keys: readonly string[]): SurfaceMemoryDamaged {
  const more = keys.length > 3 ? ` and ${keys.length - 3} more` : '';
  return new SurfaceMemoryDamaged(
    `In ${file} what the surface "${surface}" kept under ${keys
      .slice(0, 3)
      .map((key) => `"${key}"`)
      .join(', ')}${more} is not what ` +
      'was written. It was removed: the surface goes on as if it had never been kept and may say something a second ' +
      'time. No entry of a shift is touched. Check the disk.',
  );
}
