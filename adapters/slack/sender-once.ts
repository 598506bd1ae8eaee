import type { KnownBlock } from '@slack/types';
import type { Instant } from '../../src/model/time.ts';
import type { Sent } from '../chat/outcome.ts';
import type { SenderServices } from './sender.ts';
import type { Look, Where } from './sender-look.ts';

/** What comes before may take this long and a post may still begin: together they stay inside the outbox's 10 s. */
export const MOST_BEFORE_POST_MS = 1_500;

export interface Once extends Where {
  /** Unique to the delivery; every block id of the message is `<marker>:…`, in each of its parts. */
  readonly marker: string;
  /** An earlier try may have been shown: look for it before saying it again. */
  readonly lookFirst?: boolean;
  readonly blocks: readonly KnownBlock[];
}

/**
 * Say something new in a conversation: in its turn, and not a second time when it stands there already.
 * `say` is called at most once, with the time at which all this began.
 */
export function onceOnly({ clock, pace, log }: Omit<SenderServices, 'client'>, look: Look) {
  /** Looked for and not there, and nothing was said since; when looking took too long to post after it. */
  const absent = new Set<string>();

  const later = (ms: number): Sent<never> => ({ kind: 'later', afterMs: ms });

  return async function once<T>(
    where: Once,
    say: (began: Instant) => Promise<Sent<T>>,
  ): Promise<Sent<T> | { readonly kind: 'stands'; readonly ts: string }> {
    const { channel, marker, lookFirst = false } = where;
    const own = ownId(where);
    const began = clock.now();
    const wait = pace.takePost(channel, began);
    if (wait > 0) return later(wait);
    if (lookFirst && !absent.has(own)) {
      const found = await look.find(where, own);
      if (found.kind === 'ok' && found.value !== null) return { kind: 'stands', ts: found.value.ts };
      // Asked to look less often, nothing was tried.
      if (found.kind === 'retry' && found.afterMs !== undefined) return later(found.afterMs);
      if (found.kind === 'retry' || found.kind === 'unclear' || found.kind === 'later') return found;
      if (found.kind === 'gone')
        log.warn({ channel, marker, code: found.code }, `could not look for an earlier try. ${found.why}`);
      const now = clock.now();
      if (now - began > MOST_BEFORE_POST_MS) {
        absent.add(own);
        return later(pace.nextAt(channel, now) - now);
      }
    }
    absent.delete(own);
    const sent = await say(began);
    if (sent.kind === 'retry' && sent.afterMs !== undefined)
      pace.hold('posts', channel, clock.now() + sent.afterMs);
    return sent;
  };
}

/** What nothing else has: the parts of one message have the same marker, and one must not pass for another. */
function ownId({ marker, blocks }: Once): string {
  return blocks.map(({ block_id }) => block_id).find((id) => id?.startsWith(`${marker}:`)) ?? marker;
}
