import { replay } from '../../src/engine.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import type { ShiftId } from '../../src/model/id.ts';
import { type Clock, type Store, StoreDamaged } from '../../src/ports.ts';
import type { Log } from './log.ts';

/** Does some work on the store; when a saved state turns out damaged, rebuilds it from its journal and tries once more. */
export type Mending = <T>(work: () => Promise<T>) => Promise<T>;

/** Only a snapshot can be mended here: journal and outbox need a copy, and saying so is all that can be done. */
export function createMending(store: Store, clock: Clock, log: Log): Mending {
  async function mend(id: ShiftId): Promise<void> {
    await store.repairSnapshot(id, (events) => {
      const shift = replay(id, null, events);
      if (!shift) throw new StoreDamaged(`The journal of ${id} is empty.`, { shift: id, what: 'journal' });
      return { shift, nextBell: nextRingAt(shift, clock.now()) };
    });
    log.warn({ shift: id }, 'the saved state of a shift was damaged and has been rebuilt from its journal');
  }

  return async (work) => {
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof StoreDamaged) || error.what !== 'snapshot' || error.shift === null) throw error;
      log.error({ err: error, shift: error.shift }, 'the saved state of a shift is damaged');
      await mend(error.shift);
      return work();
    }
  };
}
