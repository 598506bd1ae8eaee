import type { Instant } from './model/time.ts';

/** Longest value a surface may keep, counted as `value.length`. Longer texts belong to the shift, not here. */
export const longestRemembered = 20_000;

export interface Remembered {
  readonly key: string;
  readonly value: string;
  /** When it was last put. */
  readonly at: Instant;
}

/**
 * What a surface has to remember across restarts: which message in which channel a key became, a person's direct
 * channel, an armed backstop. Never a fact of the shift: whatever is lost here may at most make a surface say something
 * a second time.
 *
 * No surface sees another's keys. Keys and prefixes count letter by letter: case matters, no character is a wildcard.
 * Every method rejects with `Error` for what `checkRemembered` refuses. `get`, `list` and `forget` reject with
 * `SurfaceMemoryDamaged` when an entry they came upon is not what was put.
 */
export interface SurfaceMemory {
  /** JSON text as the surface wrote it; null when nothing is kept under this key. */
  get(surface: string, key: string): Promise<string | null>;
  /** Instead of what was there. Resolves after the write is durable. */
  put(surface: string, key: string, value: string): Promise<void>;
  /** Nothing there is no error. Resolves after the removal is durable. */
  remove(surface: string, key: string): Promise<void>;
  /** What the keys with this prefix hold, by code points of the key. An empty prefix is every key. */
  list(surface: string, prefix: string): Promise<readonly Remembered[]>;
  /** Remove what was last put before `before` (not at it) under keys with this prefix; how many that were. */
  forget(surface: string, prefix: string, before: Instant): Promise<number>;
}

/**
 * Said once: the damaged entries were removed before this was thrown, because a surface that stumbled over them at each
 * try would stay silent. Asked again, they are simply not there. `forget` has done its work by then.
 */
export class SurfaceMemoryDamaged extends Error {
  override readonly name = 'SurfaceMemoryDamaged';
}

type AskedOfMemory = { key?: string; prefix?: string; value?: string; before?: Instant };

/** What every surface memory refuses. @throws Error that names the surface, the key and what does not fit */
export function checkRemembered(surface: string, { key, prefix, value, before }: AskedOfMemory): void {
  const wrong = (what: string): never => {
    const at = `surface "${surface}", ${prefix === undefined ? 'key' : 'prefix'} "${key ?? prefix}"`;
    throw new Error(`Programming error in what a surface remembers (${at}): ${what}. Nothing was changed.`);
  };
  if (surface === '') wrong('the name of the surface is empty; give the name it has as a `Surface`');
  if (key === '') wrong('the key is empty; give each thing that is kept a key of its own');
  if (value !== undefined && value.length > longestRemembered)
    wrong(
      `the value has ${value.length} characters, at most ${longestRemembered} are kept; keep ids, not texts`,
    );
  // Nothing is earlier than it: nothing would ever be forgotten, without a word.
  if (Number.isNaN(before)) wrong('the time to forget before is no number; give epoch ms');
  // Half a surrogate pair does not survive UTF-8: two keys would become one.
  for (const [name, text] of Object.entries({ surface, key, prefix, value }))
    if (text && /\p{Surrogate}/u.test(text))
      wrong(`the ${name} has half a character in it; do not cut texts inside an emoji`);
}
