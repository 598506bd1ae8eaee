import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A path for a database in a folder of its own, removed after the test file. */
export function tempFile(content?: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'potbell-'));
  folders.push(folder);
  const file = join(folder, 'potbell.db');
  if (content) writeFileSync(file, content);
  return file;
}

/**
 * Copy an open database with its write-ahead log, as if its process had been killed. In a process of its own: closing
 * a second handle on the file in this one would give up the lock.
 */
export function killedCopy(file: string): string {
  const copy = tempFile();
  const script =
    "for (const end of ['', '-wal']) require('fs').copyFileSync(process.argv[1] + end, process.argv[2] + end)";
  execFileSync(process.execPath, ['-e', script, file, copy]);
  return copy;
}
