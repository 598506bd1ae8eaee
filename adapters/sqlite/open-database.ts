import { existsSync, lstatSync, realpathSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { damagedFile, explain, StoreUnavailable } from './errors.ts';
import { checkPages, checkSchema } from './integrity.ts';
import type { Log } from './log.ts';
import { migrate } from './migrate.ts';
import { makeDatabase, removeHalfMade } from './new-database.ts';
import { applySettings, assertSettings, assertVersion, sqliteVersion } from './settings.ts';
import { walDamage } from './wal-check.ts';

/** Long enough for a Potbell that is just stopping, short enough to be told of one that is not. */
const waitForOwnerMs = 500;

export interface OpenOptions {
  /** Path of the database file; made when it does not exist, its folder is not. */
  readonly file: string;
  readonly log?: Log | undefined;
}

/**
 * Open a Potbell database for this process alone, checked and migrated.
 *
 * Do not open the file a second time in this process in any other way, not even to copy it: closing that second
 * handle would give up the lock (POSIX advisory locks belong to the process).
 *
 * @throws StoreUnavailable another Potbell has it, a newer one wrote it, or it cannot be written
 * @throws StoreDamaged it is not what was written; nothing is ever started empty over it
 */
export function openDatabase({ file: given, log }: OpenOptions): Database.Database {
  // SQLite keeps its log beside the file a link points to.
  const file = existsSync(given) ? realpathSync(given) : resolve(given);
  refuseWhatLooksLost(file);
  let db: Database.Database | undefined;
  try {
    if (!existsSync(file)) {
      const steps = makeDatabase(file);
      if (steps) log?.info({ file, steps }, 'A new database was made.');
    }
    db = new Database(file, { timeout: waitForOwnerMs });
    assertVersion(sqliteVersion(db));
    applySettings(db);
    assertSettings(db);
    removeHalfMade(file, log);
    checkPages(db, file, log);
    const steps = migrate(db, file);
    if (steps.length > 0) log?.info({ file, steps }, 'The database was brought up to date.');
    checkSchema(db, file);
    return db;
  } catch (error) {
    db?.close();
    const explained = explain(error, file);
    // At opening nothing of ours can be wrong with the SQL, so what SQLite could not make sense of is the file.
    throw explained instanceof Database.SqliteError
      ? damagedFile(file, explained.message, explained)
      : explained;
  }
}

/** SQLite would take each of these for a new database and start empty. */
function refuseWhatLooksLost(file: string): void {
  if (!existsSync(dirname(file)))
    throw new StoreUnavailable(
      'no-access',
      `There is no folder ${dirname(file)} for the database. Make it first.`,
    );
  const wal = `${file}-wal`;
  if (!existsSync(file)) {
    // A disk that is not mounted looks like this; what was written yesterday is on it.
    if (lstatSync(file, { throwIfNoEntry: false })?.isSymbolicLink())
      throw new StoreUnavailable(
        'no-access',
        `${file} is a link to a file that is not there. If that disk is only missing, connect it. ` +
          'If there never was a database, remove the link, or give Potbell the file itself.',
      );
    if (existsSync(wal))
      throw damagedFile(file, `the file is gone, but its write-ahead log ${wal} is still there`);
    return;
  }
  if (statSync(file).size === 0)
    // A first start that is cut off leaves no such file: somebody or something else has emptied it.
    throw damagedFile(
      file,
      'the file is empty. Potbell never leaves one like that: it was emptied, or copying it broke off. Only if ' +
        'there was never a shift in it, delete it and start again',
    );
  const found = walDamage(wal);
  if (found !== null) throw damagedFile(file, found);
}
