import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));

export interface SourceFile {
  /** Path from the root of the project, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** Every file under `folder` whose name ends with `end`. */
export function filesUnder(folder: string, end: string): readonly SourceFile[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(end))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((file) => ({
      path: relative(root, file).replaceAll('\\', '/'),
      text: readFileSync(file, 'utf8'),
    }));
}
