import { closeSync, openSync, renameSync, rmSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { StoreDamaged } from '../../src/ports.ts';
import { verifyChain } from '../host/chain.ts';
import { damagedJournal, StoreUnavailable } from './errors.ts';
import { openDatabase } from './open-database.ts';
import { sqliteStore } from './store.ts';

/** What was found in a copy that was read back. */
export interface Copied {
  readonly shifts: number;
  readonly lines: number;
}

/**
 * Copy an open database, also while it is written to, by SQLite's own online backup over the handle that has it. The copy
 * is written beside its place, opened like any database (pages, indexes, tables), each journal in it walked to the seal
 * it should end with, and only then given its name.
 * @throws StoreUnavailable when there is a file of that name already: nothing is ever written over.
 * @throws StoreDamaged when what was copied does not hold. No file of that name is left then.
 */
export function copyDatabase(db: Database.Database, to: string): Promise<Copied> {
  return keepCopy(to, async (part) => void (await db.backup(part)));
}

/** The same for a copy that comes from elsewhere; `write` puts it at the path it is given. */
export async function keepCopy(to: string, write: (part: string) => Promise<void>): Promise<Copied> {
  const part = `${to}.part`;
  reserve(to);
  try {
    rmSync(part, { force: true });
    await write(part);
    const found = await readBack(part);
    renameSync(part, to);
    return found;
  } catch (error) {
    rmSync(to, { force: true });
    for (const end of ['', '-wal', '-shm']) rmSync(`${part}${end}`, { force: true });
    throw error;
  }
}

/** Takes the name with an empty file, so that two copies started at once cannot write over each other. */
function reserve(to: string): void {
  try {
    closeSync(openSync(to, 'wx'));
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
    throw new StoreUnavailable(
      'no-access',
      `There is a file ${to} already. A copy is never written over another: give it a new name, for example with the date.`,
    );
  }
}

async function readBack(part: string): Promise<Copied> {
  try {
    const copy = sqliteStore(openDatabase({ file: part }));
    try {
      const shifts = await copy.shifts();
      let lines = 0;
      for (const { id, head } of shifts) {
        const journal = await copy.journal(id);
        const check = verifyChain(id, journal, head);
        if (!check.ok) throw damagedJournal(part, id, `line ${check.line}: ${check.why}`);
        // The state is read as well: it has a sum of its own.
        await copy.shift(id);
        lines += journal.length;
      }
      return { shifts: shifts.length, lines };
    } finally {
      await copy.close();
    }
  } catch (error) {
    if (!(error instanceof StoreDamaged)) throw error;
    const { shift, what } = error;
    throw new StoreDamaged(
      `The copy did not hold and was deleted; the database it came from was left as it is. Stop Potbell when no paint is mixed, run "potbell verify", start it again (it mends what it can) and make the copy anew. Found: ${error.message}`,
      { shift, what },
      { cause: error },
    );
  }
}
