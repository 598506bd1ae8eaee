import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { SitePack } from '../../src/model/site.ts';
import type { BackupServices } from '../api/backup.ts';
import { type Copied, copyDatabase, keepCopy } from '../sqlite/copy.ts';
import { StoreUnavailable } from '../sqlite/errors.ts';
import { openDatabase } from '../sqlite/open-database.ts';
import { UsageProblem } from './site.ts';

/** What the JSON way in needs to hand a copy of the running database to a foreman. */
export function backupServices(pack: SitePack, copyTo: (file: string) => Promise<Copied>): BackupServices {
  return {
    isForeman: (person) => pack.people.some(({ id, roles }) => id === person && roles.includes('foreman')),
    async copy() {
      const folder = mkdtempSync(join(tmpdir(), 'potbell-copy-'));
      try {
        const file = join(folder, 'copy.db');
        await copyTo(file);
        return readFileSync(file);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  };
}

/** Copy the database of a Potbell that is stopped. */
export async function copyStopped(data: string, to: string): Promise<Copied> {
  if (!existsSync(data))
    throw new UsageProblem(`There is no database ${data}. Say which one with --data FILE.`);
  const db = openStopped(data);
  try {
    return await copyDatabase(db, to);
  } finally {
    db.close();
  }
}

function openStopped(data: string) {
  try {
    return openDatabase({ file: resolve(data) });
  } catch (error) {
    if (!(error instanceof StoreUnavailable) || error.reason !== 'in-use') throw error;
    throw new UsageProblem(
      `${error.message}\nWhile Potbell runs, it makes the copy itself: say --as with the id of a foreman, who types the PIN.`,
    );
  }
}

/** Ask a running Potbell for a copy, as a foreman with the PIN. */
export async function copyRunning(
  { board, person, pin }: { readonly board: string; readonly person: string; readonly pin: string },
  to: string,
): Promise<Copied> {
  if (!URL.canParse(board))
    throw new UsageProblem(`"${board}" is no address. Write --board as one such as http://127.0.0.1:8731.`);
  return keepCopy(to, async (part) => {
    const response = await fetch(new URL('/api/backup', board), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ person, pin }),
      signal: AbortSignal.timeout(120_000),
    }).catch((error: unknown) => {
      throw new UsageProblem(
        `No Potbell answers at ${board} (${error instanceof Error ? error.message : String(error)}). If it is stopped, leave --as away; else say --board URL.`,
      );
    });
    if (!response.ok) throw new UsageProblem(await refusal(response, board));
    writeFileSync(part, new Uint8Array(await response.arrayBuffer()), { flush: true });
  });
}

async function refusal(response: Response, board: string): Promise<string> {
  const answer: unknown = await response.json().catch(() => null);
  const text = typeof answer === 'object' && answer !== null && 'text' in answer ? answer.text : null;
  return typeof text === 'string'
    ? text
    : `Something answers at ${board}, but gives no copy (status ${response.status}).`;
}
