import { HOUR, type Instant } from '../../src/model/time.ts';
import type { Clock, SurfaceMemory } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';

/** No message of a shift is changed this long after it, and no form is still open. */
const KEPT_MS = 60 * 24 * HOUR;

/** Whose message stands where is of use for a while only. Who has which direct conversation is kept. */
export async function forgetOld(memory: SurfaceMemory, surface: string, now: Instant): Promise<void> {
  for (const prefix of ['said:', 'thread:', 'half:', 'older:', 'draft:'])
    await memory.forget(surface, prefix, now - KEPT_MS);
}

/** Runs `forget` at the start, and with the first commit a day later: a Potbell that runs for months needs it too. */
export function createForgetting(
  { clock, log, surface }: { readonly clock: Clock; readonly log: Log; readonly surface: string },
  forget: (now: Instant) => Promise<void>,
) {
  let last = Number.NEGATIVE_INFINITY;
  return function forgetDaily(): void {
    const now = clock.now();
    if (now - last < 24 * HOUR) return;
    last = now;
    forget(now).catch((error: unknown) =>
      log.warn({ err: error, surface }, 'what a chat needs no more could not be forgotten'),
    );
  };
}
