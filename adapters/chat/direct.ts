import type { Instant } from '../../src/model/time.ts';
import type { Sent } from './outcome.ts';
import type { AnyPart, Platform } from './platform.ts';
import type { ChatServices } from './services.ts';

const MINUTE_MS = 60_000;

/** Each member's direct conversation, opened once for ever and never by two at the same time. */
export function createDirect(
  { memory, surface, clock }: Pick<ChatServices, 'memory' | 'surface' | 'clock'>,
  platform: Pick<Platform<AnyPart>, 'openDirect' | 'directsAMinute'>,
) {
  const opening = new Map<string, Promise<Sent<string>>>();
  let opened: readonly Instant[] = [];
  let held: Instant = 0;

  async function open(member: string): Promise<Sent<string>> {
    const known = await memory.get(surface, `dm:${member}`);
    if (known !== null) return { kind: 'ok', value: known };
    const now = clock.now();
    opened = opened.filter((at) => at + MINUTE_MS > now);
    const oldest = opened.at(-platform.directsAMinute);
    const free = Math.max(held, oldest === undefined ? now : oldest + MINUTE_MS);
    if (free > now) return { kind: 'later', afterMs: free - now };
    opened = [...opened, now];
    const sent = await platform.openDirect(member);
    if (sent.kind === 'ok') await memory.put(surface, `dm:${member}`, sent.value);
    if (sent.kind === 'retry' && sent.afterMs !== undefined)
      held = Math.max(held, clock.now() + sent.afterMs);
    // Opening it twice is harmless.
    return sent.kind === 'unclear' ? { kind: 'retry', why: sent.why } : sent;
  }

  return {
    open(member: string): Promise<Sent<string>> {
      const underWay = opening.get(member);
      if (underWay !== undefined) return underWay;
      const work = open(member).finally(() => opening.delete(member));
      opening.set(member, work);
      return work;
    },
  };
}
