/**
 * JSON text with one spelling for one value, so that it can be hashed: keys in the order of their UTF-16 code units,
 * no spaces, numbers as ECMAScript writes them (RFC 8785). One thing differs from the RFC: half a surrogate pair is
 * kept as its escape instead of being refused, because an emoji cut in two in somebody's words must not stop a journal.
 *
 * A property that is `undefined` is left out, as in `JSON.stringify`. Whatever would come back as something else (NaN,
 * an infinity, a Date, a Map, a function, a hole in an array) throws a TypeError that names its place.
 */
export function canonicalJson(value: unknown): string {
  return write(value, []);
}

function write(value: unknown, path: (string | number)[]): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) return refuse(String(value), path);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${Array.from(value, (item, at) => inside(item, at, path)).join(',')}]`;
  if (typeof value === 'object' && isPlain(value)) {
    const parts: string[] = [];
    for (const [key, item] of Object.entries(value).sort(byCodeUnits)) {
      if (item !== undefined) parts.push(`${JSON.stringify(key)}:${inside(item, key, path)}`);
    }
    return `{${parts.join(',')}}`;
  }
  return refuse(typeof value === 'object' ? 'an object with a class of its own' : typeof value, path);
}

function inside(item: unknown, key: string | number, path: (string | number)[]): string {
  path.push(key);
  const text = write(item, path);
  path.pop();
  return text;
}

function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

/** `<` on strings compares code units, which is the order of RFC 8785; a locale's order would differ by machine. */
function byCodeUnits(a: readonly [string, unknown], b: readonly [string, unknown]): number {
  return a[0] < b[0] ? -1 : 1;
}

function refuse(what: string, path: readonly (string | number)[]): never {
  throw new TypeError(
    `Cannot keep ${what} at ${['$', ...path].join('.')}: it would not come back the same from JSON.`,
  );
}
