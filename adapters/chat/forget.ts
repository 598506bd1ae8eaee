import { HOUR, type Instant } from '../../src/model/time.ts';
import type { SurfaceMemory } from '../../src/ports.ts';

/** No message of a shift is changed this long after it, and no form is still open. */
const KEPT_MS = 60 * 24 * HOUR;

/** Whose message stands where is of use for a while only. Who has which direct conversation is kept. */
export async function forgetOld(memory: SurfaceMemory, surface: string, now: Instant): Promise<void> {
  for (const prefix of ['said:', 'thread:', 'half:', 'draft:'])
    await memory.forget(surface, prefix, now - KEPT_MS);
}
