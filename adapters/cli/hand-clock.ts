import type { Clock, Store } from '../../src/ports.ts';
import type { Host } from '../host/host.ts';

/** A clock that only moves when it is moved. */
export interface HandClock extends Clock {
  set(at: number): void;
}

export function handClock(start: number): HandClock {
  let now = start;
  return {
    now: () => now,
    set(at) {
      now = Math.max(now, at);
    },
  };
}

/** Let the time pass up to `until`, ringing every bell at its own minute and delivering what it says. */
export async function passTime(
  clock: HandClock,
  store: Store,
  host: Host,
  until: number,
  heard: () => void,
): Promise<void> {
  for (;;) {
    const next = await store.earliestBell();
    if (next === null || next > until) break;
    clock.set(next);
    await host.bells.runDue();
    await host.outbox.drain();
    heard();
  }
  clock.set(until);
}
