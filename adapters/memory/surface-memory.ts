import { type Clock, checkRemembered, type Remembered, type SurfaceMemory } from '../../src/ports.ts';

/** A surface memory that forgets everything when the process ends: for tests, the tour and one-off commands. */
export function memorySurfaceMemory(clock: Clock): SurfaceMemory {
  const kept = new Map<string, Map<string, Remembered>>();

  function of(surface: string): Map<string, Remembered> {
    const found = kept.get(surface) ?? new Map<string, Remembered>();
    kept.set(surface, found);
    return found;
  }

  function withPrefix(surface: string, prefix: string): readonly Remembered[] {
    return [...of(surface).values()]
      .filter(({ key }) => key.startsWith(prefix))
      .sort((a, b) => byCodePoints(a.key, b.key));
  }

  return {
    async get(surface, key) {
      checkRemembered(surface, { key });
      return of(surface).get(key)?.value ?? null;
    },
    async put(surface, key, value) {
      checkRemembered(surface, { key, value });
      of(surface).set(key, { key, value, at: clock.now() });
    },
    async remove(surface, key) {
      checkRemembered(surface, { key });
      of(surface).delete(key);
    },
    async list(surface, prefix) {
      checkRemembered(surface, { prefix });
      return withPrefix(surface, prefix).map((found) => ({ ...found }));
    },
    async forget(surface, prefix, before) {
      checkRemembered(surface, { prefix, before });
      const old = withPrefix(surface, prefix).filter(({ at }) => at < before);
      for (const { key } of old) of(surface).delete(key);
      return old.length;
    },
  };
}

/** JavaScript compares halves of surrogate pairs, a database bytes of UTF-8: they differ above U+FFFF. */
function byCodePoints(a: string, b: string): number {
  return Buffer.compare(Buffer.from(a), Buffer.from(b));
}
