import type { Clock } from '../../src/ports.ts';

const SHORTEST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 30_000;

/** Whether a chat platform takes what is said, seen from what became of the last try. */
export function createAway(clock: Clock) {
  let away: { readonly since: number; readonly why: string } | null = null;
  return {
    /** Null while it does. */
    why: () => away?.why ?? null,
    /** How long until the next try, ms: longer the longer it lasts. */
    wait(why: string): number {
      const now = clock.now();
      away = { since: away?.since ?? now, why };
      return Math.min(LONGEST_WAIT_MS, Math.max(SHORTEST_WAIT_MS, (now - away.since) / 2));
    },
    back(): void {
      away = null;
    },
  };
}
