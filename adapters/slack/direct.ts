import type { Instant } from '../../src/model/time.ts';
import type { Clock, SurfaceMemory } from '../../src/ports.ts';
import type { Sent } from './outcome.ts';
import type { Sender } from './sender.ts';
import { SLACK } from './services.ts';

/**
 * docs.slack.dev/reference/methods/conversations.open (tier 3) and apis/web-api/rate-limits: 50+ a minute. Some are left
 * for the answers to people who press meanwhile.
 */
const MOST_A_MINUTE = 40;
const MINUTE_MS = 60_000;

/** Each member's direct conversation, opened once for ever and never by two at the same time. */
export function createDirect(memory: SurfaceMemory, out: Pick<Sender, 'openDm'>, clock: Clock) {
  const opening = new Map<string, Promise<Sent<string>>>();
  let opened: readonly Instant[] = [];
  let held: Instant = 0;

  async function open(member: string): Promise<Sent<string>> {
    const known = await memory.get(SLACK, `dm:${member}`);
    if (known !== null) return { kind: 'ok', value: known };
    const now = clock.now();
    opened = opened.filter((at) => at + MINUTE_MS > now);
    const oldest = opened.at(-MOST_A_MINUTE);
    const free = Math.max(held, oldest === undefined ? now : oldest + MINUTE_MS);
    if (free > now) return { kind: 'later', afterMs: free - now };
    opened = [...opened, now];
    const sent = await out.openDm(member);
    if (sent.kind === 'ok') await memory.put(SLACK, `dm:${member}`, sent.value);
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
