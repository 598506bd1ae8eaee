import { paintIsAlive } from '../../src/flow/clocks.ts';
import { HOUR } from '../../src/model/time.ts';
import type { Clock, HandleCommand, Store } from '../../src/ports.ts';

/** A crew that works over its time still needs its bells: only after this does a forgotten shift give way. */
const GRACE_MS = HOUR;

/**
 * Close shifts that nobody closed, once a later day has been briefed and so has taken over what they left. Otherwise
 * their bells would nag for ever, and nobody hears a bell that always rings.
 */
export function createHandOver(store: Store, handle: HandleCommand, clock: Clock): () => Promise<void> {
  return async () => {
    const open = (await store.shifts()).filter(({ status }) => status === 'open');
    if (open.length < 2) return;
    const shifts = await Promise.all(open.map(({ id }) => store.shift(id)));
    const briefed = shifts.find((shift) => shift !== null && shift.issuedAt !== null);
    for (const old of shifts) {
      if (!old || !briefed || old.date >= briefed.date || clock.now() < old.day.endsAt + GRACE_MS) continue;
      // Its bells are about paint that can still be saved.
      if (paintIsAlive(old, clock.now())) continue;
      await handle({
        shift: old.id,
        command: { type: 'hand-over', to: briefed.id },
        actor: { kind: 'system', part: 'bells' },
        commandId: `hand-over:${old.id}:${briefed.id}`,
      });
    }
  };
}
