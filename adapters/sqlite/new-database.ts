import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import type { Log } from './log.ts';
import { migrateEmpty } from './migrate.ts';
import { applySettings } from './settings.ts';

/** Disks without hard links (a memory stick) answer with one of these. */
const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS'];
const sideFiles = ['', '-wal', '-shm', '-journal'];
const halfMade = /^[0-9a-f]{12}(-wal|-shm|-journal)?$/;

/**
 * Make a new, complete database under `file`, or leave no file of that name at all, whatever kills the process or cuts
 * the power meanwhile. It is written beside it under a name of its own, closed (which empties and removes its log),
 * synced, and only then given its name.
 *
 * @returns the names of the migrations; null when another process was first: then the file is that one's
 */
export function makeDatabase(file: string, link: typeof linkSync = linkSync): readonly string[] | null {
  const fresh = `${file}-new-${randomBytes(6).toString('hex')}`;
  try {
    const db = new Database(fresh);
    let steps: readonly string[];
    try {
      applySettings(db);
      steps = migrateEmpty(db);
    } finally {
      db.close();
    }
    if (existsSync(`${fresh}-wal`)) throw new Error(`The log of the new database ${fresh} was not emptied.`);
    const first = giveName(fresh, file, link);
    syncFolder(dirname(file));
    return first ? steps : null;
  } finally {
    for (const end of sideFiles) rmSync(fresh + end, { force: true });
  }
}

/**
 * Remove what first starts that were killed left beside the database. Only for who owns the file: another process that
 * is still making one has come too late by then, and finds that out by its missing file.
 */
export function removeHalfMade(file: string, log: Log | undefined): void {
  const start = `${basename(file)}-new-`;
  const found = readdirSync(dirname(file)).filter(
    (name) => name.startsWith(start) && halfMade.test(name.slice(start.length)),
  );
  for (const name of found) {
    const path = join(dirname(file), name);
    try {
      rmSync(path, { force: true });
      log?.info({ path }, 'A first start was cut off. What it had begun held nothing and was removed.');
    } catch (error) {
      // It is in nobody's way; the crew's day is not held up for it.
      log?.warn(
        { path, error: String(error) },
        'A file that a cut-off first start left could not be removed.',
      );
    }
  }
}

/** Never over a file that is there: it may have become somebody's database a moment ago, with entries in it. */
function giveName(fresh: string, file: string, link: typeof linkSync): boolean {
  try {
    sync(fresh);
    link(fresh, file);
    return true;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    // ENOENT: whoever was first has removed ours already.
    if (code === 'EEXIST' || code === 'ENOENT') return false;
    if (!noLinks.includes(code)) throw error;
    // Without hard links there is an instant between the look and the rename in which another first start could win.
    if (existsSync(file)) return false;
    renameSync(fresh, file);
    return true;
  }
}

function sync(path: string): void {
  const handle = openSync(path, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Without it a power cut can take the name back. Windows keeps names safe by itself and opens no folders. */
function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
