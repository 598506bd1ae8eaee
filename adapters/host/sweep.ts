import cron from 'node-cron';
import type { Clock, Store } from '../../src/ports.ts';
import type { BellLoop } from './bell-loop.ts';
import type { Log } from './log.ts';
import type { OutboxLoop } from './outbox-loop.ts';

/** Longer than the loop's longest sleep and its pause after a failure: past this, the loop is not doing its work. */
const OVERDUE_MS = 8_000;

/**
 * Asks, apart from the loops, whether anything is due and not done. A loop can die of one error or one call that never
 * returns; this one has no state to lose. Tick in UTC only: a wall-clock zone goes silent for an hour in autumn.
 */
export function createSweep(services: {
  readonly store: Store;
  readonly bells: BellLoop;
  readonly outbox: OutboxLoop;
  readonly clock: Clock;
  readonly log: Log;
  handOver(): Promise<void>;
}): { check(): Promise<void>; start(): void; stop(): Promise<void> } {
  const { store, bells, outbox, clock, log } = services;

  async function check(): Promise<void> {
    const overdue = await store.due(clock.now() - OVERDUE_MS);
    if (overdue.length > 0) {
      log.error(
        { shifts: overdue.map(({ shift }) => shift) },
        'bells are overdue and the loop has not rung them; ringing now',
      );
      await bells.runDue();
      outbox.poke();
    }
    await services.handOver();
  }

  const task = cron.createTask(
    '*/5 * * * * *',
    () => check().catch((error: unknown) => log.error({ err: error }, 'the sweep failed; it goes on')),
    { timezone: 'UTC', noOverlap: true, suppressMissedWarning: true, name: 'sweep' },
  );
  return {
    check,
    start: () => void task.start(),
    stop: async () => {
      await task.destroy();
    },
  };
}
