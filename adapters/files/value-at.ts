import type { Path } from './yaml-file.ts';

/** What stands at `path` in plain data; undefined where nothing does. Never an inherited name. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Readonly<Record<string, unknown>>)[part];
  }
  return value;
}

export function listAt(data: unknown, name: string): readonly unknown[] {
  const list = valueAt(data, [name]);
  return Array.isArray(list) ? list : [];
}
