import type { ShiftId } from '../../src/model/id.ts';
import type { Clock, HandleCommand, Store } from '../../src/ports.ts';
import type { Log } from './log.ts';
import type { Mending } from './mending.ts';
import { withinTime } from './within-time.ts';

/** Longest sleep: a clock that jumped or a machine that slept is noticed this soon. */
const LONGEST_SLEEP_MS = 1_000;
/** A shift whose ringing fails is tried again after this long, and does not keep the others from ringing. */
const AFTER_FAILURE_MS = 5_000;
const LONGEST_RING_MS = 10_000;

export interface BellLoop {
  /** Ring everything that is due now. Returns how many shifts rang. */
  runDue(): Promise<number>;
  start(): void;
  stop(): Promise<void>;
}

/** Sleep until the earliest bell, ask its shift what rings now, and again. What is due lives in the store, not here. */
export function createBellLoop(services: {
  readonly store: Store;
  readonly handle: HandleCommand;
  readonly clock: Clock;
  readonly log: Log;
  readonly newId: () => string;
  readonly mending: Mending;
}): BellLoop {
  const { store, handle, clock, log, newId, mending } = services;
  const notBefore = new Map<ShiftId, number>();
  let timer: NodeJS.Timeout | null = null;
  let running: Promise<number> | null = null;
  let stopped = true;

  const ring = (shift: ShiftId) =>
    handle({
      shift,
      command: { type: 'ring' },
      actor: { kind: 'system', part: 'bells' },
      commandId: `ring:${newId()}`,
    });

  async function ringAll(): Promise<number> {
    const now = clock.now();
    let rang = 0;
    for (const { shift } of await mending(() => store.due(now))) {
      if ((notBefore.get(shift) ?? 0) > now) continue;
      try {
        const outcome = await withinTime(ring(shift), LONGEST_RING_MS, 'the store did not answer');
        if (!outcome.ok) throw new Error(outcome.shown.summary);
        notBefore.delete(shift);
        if (outcome.events.length > 0) rang += 1;
      } catch (error) {
        notBefore.set(shift, now + AFTER_FAILURE_MS);
        log.error({ err: error, shift }, 'the bells of this shift could not be rung; trying again');
      }
    }
    return rang;
  }

  /** One pass at a time: a sweep that comes in the middle waits for the pass that is under way. */
  function runDue(): Promise<number> {
    running ??= ringAll().finally(() => {
      running = null;
    });
    return running;
  }

  async function turn(): Promise<void> {
    let sleep = LONGEST_SLEEP_MS;
    try {
      await runDue();
      const next = await store.earliestBell();
      if (next !== null) sleep = Math.min(LONGEST_SLEEP_MS, Math.max(10, next - clock.now()));
    } catch (error) {
      log.error({ err: error }, 'the bell loop failed; it goes on');
    }
    if (!stopped) timer = setTimeout(() => void turn(), sleep);
  }

  return {
    runDue,
    start() {
      stopped = false;
      void turn();
    },
    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
      await running;
    },
  };
}
