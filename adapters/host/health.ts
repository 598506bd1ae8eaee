import type { Clock, Store } from '../../src/ports.ts';

const BELL_OVERDUE_MS = 15_000;
const OUTBOX_STUCK_MS = 60_000;

export interface Health {
  readonly ok: boolean;
  readonly problems: readonly string[];
}

/** Red when a bell is overdue, a message is stuck, or something was found damaged at start. */
export function createHealth(
  store: Store,
  clock: Clock,
  standing: () => readonly string[],
): () => Promise<Health> {
  return async () => {
    const problems = [...standing()];
    try {
      const now = clock.now();
      const overdue = await store.due(now - BELL_OVERDUE_MS);
      for (const { shift, at } of overdue)
        problems.push(`A bell of ${shift} is ${Math.round((now - at) / 1000)} s overdue.`);
      const oldest = await store.oldestUnsettled();
      if (oldest !== null && now - oldest > OUTBOX_STUCK_MS)
        problems.push(`A message has been waiting for ${Math.round((now - oldest) / 1000)} s.`);
    } catch (error) {
      problems.push(`The store does not answer: ${error instanceof Error ? error.message : String(error)}`);
    }
    return { ok: problems.length === 0, problems };
  };
}
