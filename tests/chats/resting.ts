import { setImmediate as nextTurn } from 'node:timers/promises';
import type { SurfaceMemory } from '../../src/ports.ts';
import type { handTimers } from '../slack/by-hand.ts';

/** How long something that answers at once may take, in turns of the event loop, before nothing more is waited for. */
const MOST_IDLE = 2_000;

/**
 * Lets the older rings of bells be changed, which a chat does by itself while nothing else happens: its timers go off, and
 * as much time goes by. Ends when none is left, or when no timer waits.
 */
export async function resting(
  { memory, pass }: { readonly memory: SurfaceMemory; pass(ms: number): void },
  surface: string,
  timers: ReturnType<typeof handTimers>,
): Promise<void> {
  const left = async () => (await memory.list(surface, 'older:')).length > 0;
  for (let idle = 0; idle < MOST_IDLE && (await left()); idle += 1) {
    const waits = timers.waits();
    if (waits.length > 0) {
      pass(Math.max(...waits));
      timers.goOff();
      idle = 0;
    }
    await nextTurn();
  }
}
