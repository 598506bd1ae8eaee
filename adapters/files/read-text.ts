import { readFileSync, statSync } from 'node:fs';
import type { PackProblem } from './problem.ts';

/** Far more than anybody writes by hand; keeps a wrong file from filling the memory. */
const LARGEST_BYTES = 1024 * 1024;

export type ReadText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly missing: boolean; readonly problem: PackProblem };

/** A UTF-8 text file of at most 1 MiB, byte order mark removed; otherwise what is wrong with it and how to mend it. */
export function readText(file: string): ReadText {
  try {
    const stat = statSync(file);
    if (!stat.isFile()) return no(file, 'this is a folder, not a file', 'a text file with this name');
    if (stat.size > LARGEST_BYTES)
      return no(file, 'the file is larger than 1 MiB', 'a smaller file: was another one copied over it?');
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(file)) };
  } catch (error) {
    if (error instanceof TypeError)
      return no(file, 'this is not UTF-8 text', 'save it again as plain text with the encoding UTF-8');
    return no(file, ...words(codeOf(error), error));
  }
}

function words(code: string, error: unknown): [message: string, write: string, missing?: boolean] {
  if (code === 'ENOENT' || code === 'ENOTDIR') return ['the file is missing', 'create this file', true];
  if (code === 'EACCES' || code === 'EPERM')
    return ['the file may not be read', 'give the user that runs Potbell the right to read it'];
  return [`the file cannot be read (${String(error)})`, 'check the disk and the folder, then try again'];
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

function no(file: string, message: string, write: string, missing = false): ReadText {
  return { ok: false, missing, problem: { file, line: 1, column: 1, field: '', found: '', message, write } };
}
