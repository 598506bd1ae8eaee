import { join } from 'node:path';
import { type Check, readChecked, sha256Of } from './checked-file.ts';
import { wordFiles } from './draft-mark.ts';
import type { Language } from './language-file.ts';

export interface CheckedFile {
  readonly file: string;
  readonly by: string;
  readonly on: string;
  readonly note: string | null;
}

/** What is known of who has read the words of a language, file by file. */
export interface LanguageChecks {
  readonly checked: readonly CheckedFile[];
  /** Read once, other words since. */
  readonly changed: readonly CheckedFile[];
  readonly unchecked: readonly string[];
}

/** Holds the checks against the files as they are. A file that has gone has no line: nobody reads it. */
export function languageChecks(
  folder: string,
  checks: readonly Check[] = readChecked(folder).checks,
): LanguageChecks {
  const files = wordFiles(folder).map((file) => {
    const of = checks.filter((check) => check.file === file);
    const sha = sha256Of(join(folder, file));
    return { file, right: of.findLast(({ sha256 }) => sha256 === sha), last: of.at(-1) };
  });
  const told = (file: string, { by, on, note = null }: Check | CheckedFile): CheckedFile => ({
    file,
    by,
    on,
    note: note ?? null,
  });
  return {
    checked: files.flatMap(({ file, right }) => (right ? [told(file, right)] : [])),
    changed: files.flatMap(({ file, right, last }) => (!right && last ? [told(file, last)] : [])),
    unchecked: files.flatMap(({ file, last }) => (last ? [] : [file])),
  };
}

/** Whether readers have to be told that nobody has checked what a machine wrote. */
export function isChecked({ drafted }: Language, { changed, unchecked }: LanguageChecks): boolean {
  return drafted === 'by-hand' || (changed.length === 0 && unchecked.length === 0);
}
