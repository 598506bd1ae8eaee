/** Plain JSON objects as they come off the wire. */
export type Dict = { [key: string]: unknown };

export function isDict(value: unknown): value is Dict {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function dict(value: unknown): Dict {
  return isDict(value) ? value : {};
}

export function list(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

export function dicts(value: unknown): Dict[] {
  return list(value).filter(isDict);
}

export function text(value: unknown): string {
  return typeof value === 'string' ? value : '';
}

/** The `text` inside a text object, or '' when there is none. */
export function label(value: unknown): string {
  return text(dict(value).text);
}

/** Parses JSON; undefined when the text is no JSON, so that the caller can name its own error. */
export function parsed(source: string): unknown {
  try {
    return JSON.parse(source);
  } catch {
    return undefined;
  }
}

/** A copy that shares nothing with the state, so that a test cannot change the peer by accident. */
export function copy<T>(value: T): T {
  return structuredClone(value);
}
