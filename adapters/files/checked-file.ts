import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { dateSchema } from '../../src/model/time.ts';
import { wordFiles } from './draft-mark.ts';
import type { PackProblem } from './problem.ts';
import { readYaml } from './yaml-file.ts';

const checkSchema = z.strictObject({
  file: z.string().min(1),
  /** Of exactly what was read: one letter changed and nobody has checked it. */
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, '64 digits and small letters a to f; potbell languages --sha prints them'),
  by: z.string().trim().min(1, 'who read it, a name'),
  on: dateSchema,
  note: z.string().min(1).optional(),
});

/** Somebody who reads the language well has read one file and stands behind it. */
export type Check = z.infer<typeof checkSchema>;

export const CHECKED_FILE = 'checked.yaml';

/** `templates/<code>/checked.yaml`: a list of checks; no such file is nothing checked. */
export function readChecked(folder: string): {
  readonly checks: readonly Check[];
  readonly problems: readonly PackProblem[];
} {
  const file = join(folder, CHECKED_FILE);
  if (!existsSync(file)) return { checks: [], problems: [] };
  const { yaml, problems } = readYaml(file);
  if (!yaml) return { checks: [], problems };
  const found = [...problems];
  const say = (path: readonly (string | number)[], message: string, write: string) => {
    const { line, column, found: there } = yaml.spot(path);
    const field = path.map((part) => (typeof part === 'number' ? `#${part + 1}` : part)).join('.');
    found.push({ file, line, column, field, found: there, message, write });
  };
  const list = yaml.data ?? [];
  if (!Array.isArray(list)) {
    say([], 'a list of checks is expected', '- file: messages.yaml, with sha256, by and on below it');
    return { checks: [], problems: found };
  }
  const known = wordFiles(folder);
  const checks = list.flatMap((one: unknown, at): readonly Check[] => {
    const read = checkSchema.safeParse(one);
    if (!read.success) {
      for (const { path, message } of read.error.issues)
        say(
          [at, ...path.map((part) => (typeof part === 'symbol' ? String(part) : part))],
          'this does not belong into a check',
          `file, sha256, by, on: ${message}`,
        );
      return [];
    }
    if (known.includes(read.data.file)) return [read.data];
    say([at, 'file'], 'there is no such file in this language', 'messages.yaml or cautions/<name>.md');
    return [];
  });
  return { checks, problems: found };
}

export function sha256Of(file: string): string {
  return createHash('sha256').update(readFileSync(file)).digest('hex');
}
