/** One place where two plain values differ; `undefined` for what is not there at all. */
export interface Difference {
  /** For example "batches.0.litres". */
  readonly path: string;
  readonly left: unknown;
  readonly right: unknown;
}

/** Where two values made of JSON differ, in reading order, at most `limit` places. */
export function differences(left: unknown, right: unknown, limit: number): readonly Difference[] {
  const found: Difference[] = [];
  compare(left, right, [], found, limit);
  return found;
}

function compare(
  left: unknown,
  right: unknown,
  path: readonly string[],
  found: Difference[],
  limit: number,
): void {
  if (found.length >= limit || left === right) return;
  if (!holds(left) || !holds(right) || Array.isArray(left) !== Array.isArray(right)) {
    found.push({ path: path.join('.'), left, right });
    return;
  }
  for (const key of new Set([...Object.keys(left), ...Object.keys(right)]))
    compare(own(left, key), own(right, key), [...path, key], found, limit);
}

function holds(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function own(value: Readonly<Record<string, unknown>>, key: string): unknown {
  return Object.hasOwn(value, key) ? value[key] : undefined;
}

/** A value in a few characters, for a message. */
export function shortly(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}
