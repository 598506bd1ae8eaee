import type { Instant } from '../../src/model/time.ts';
import type { Sent } from './outcome.ts';
import type { SenderServices } from './sender.ts';
import type { Look, Where } from './sender-look.ts';

/** What comes before may take this long and a post may still begin: together they stay inside the outbox's 10 s. */
export const MOST_BEFORE_POST_MS = 1_500;

export interface Once extends Where {
  /**
   * Every block id of this message is `<marker>:…` and no other's is: the revision it was rendered with, or
   * `<revision>:m1` and so on for one of several parts. With the revision alone the first part would stand for all.
   */
  readonly marker: string;
  /** An earlier try may have been shown: look for it before saying it again. */
  readonly lookFirst?: boolean;
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
    const began = clock.now();
    const wait = pace.takePost(channel, began);
    if (wait > 0) return later(wait);
    if (lookFirst && !absent.has(marker)) {
      const found = await look.find(where, marker);
      if (found.kind === 'ok' && found.value !== null) return { kind: 'stands', ts: found.value.ts };
      // Asked to look less often, nothing was tried.
      if (found.kind === 'retry' && found.afterMs !== undefined) return later(found.afterMs);
      if (found.kind === 'retry' || found.kind === 'unclear' || found.kind === 'later') return found;
      if (found.kind === 'gone')
        log.warn({ channel, marker, code: found.code }, `could not look for an earlier try. ${found.why}`);
      const now = clock.now();
      if (now - began > MOST_BEFORE_POST_MS) {
        absent.add(marker);
        return later(pace.nextAt(channel, now) - now);
      }
    }
    absent.delete(marker);
    const sent = await say(began);
    if (sent.kind === 'retry' && sent.afterMs !== undefined)
      pace.hold('posts', channel, clock.now() + sent.afterMs);
    return sent;
  };
}
