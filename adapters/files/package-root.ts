import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * The folder of Potbell's own package.json: where `templates/` is. Found by walking up, because this file runs both from
 * `adapters/files/` and, built, from `dist/adapters/files/`.
 * @throws Error when no parent folder is Potbell's.
 */
export function packageRoot(from: string = fileURLToPath(import.meta.url)): string {
  let folder = dirname(from);
  for (;;) {
    const manifest = join(folder, 'package.json');
    if (existsSync(manifest) && nameIn(manifest) === 'potbell') return folder;
    const parent = dirname(folder);
    if (parent === folder)
      throw new Error(
        `No package.json named "potbell" above ${from}. Potbell needs its templates folder: install it again as a whole.`,
      );
    folder = parent;
  }
}

export function templatesFolder(): string {
  return join(packageRoot(), 'templates');
}

function nameIn(manifest: string): unknown {
  const parsed: unknown = JSON.parse(readFileSync(manifest, 'utf8'));
  return typeof parsed === 'object' && parsed !== null && 'name' in parsed ? parsed.name : undefined;
}
