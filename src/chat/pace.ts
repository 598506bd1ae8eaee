import type { Instant } from '../model/time.ts';

/** How often something may be said to a chat platform. */
export interface Allowance {
  readonly most: number;
  readonly withinMs: number;
  readonly source: string;
}

export interface Allowances {
  readonly postsInChannel: Allowance;
  readonly updatesOfMessage: Allowance;
  readonly updates: Allowance;
}

export const slackAllowances: Allowances = {
  postsInChannel: {
    most: 1,
    withinMs: 1_000,
    source: 'docs.slack.dev/apis/web-api/rate-limits: 1 message a second a channel; bursts promise nothing',
  },
  /** So that one message that changes often ("5 of 7 signed") leaves room for the others. */
  updatesOfMessage: { most: 1, withinMs: 2_000, source: 'our own choice, no source' },
  updates: {
    most: 50,
    withinMs: 60_000,
    source:
      'docs.slack.dev/reference/methods/chat.update (tier 3) and apis/web-api/rate-limits: 50+ a minute',
  },
};

/** When the platform may be told the next thing. All times are epoch ms that the caller gives; waits are in ms. */
export interface Pace {
  /** The earliest time, `now` at the soonest, at which the channel takes a new message. */
  nextAt(channel: string, now: Instant): Instant;
  /** Takes the channel's turn and returns 0, or takes nothing and returns how long to wait for it. */
  takePost(channel: string, now: Instant): number;
  /** The same for an update of the message `ts` in the channel. */
  takeUpdate(channel: string, ts: string, now: Instant): number;
  /** The platform asked for a wait in this channel, and in no other. */
  hold(what: 'posts' | 'updates', channel: string, until: Instant): void;
}

export function createPace(allowances: Allowances = slackAllowances): Pace {
  const { postsInChannel, updatesOfMessage, updates } = allowances;
  const posts = turns(postsInChannel);
  const ofMessage = turns(updatesOfMessage);
  const all = turns(updates);
  const held = new Map<string, Instant>();

  function heldUntil(what: string, channel: string, now: Instant): Instant {
    const until = held.get(`${what} ${channel}`) ?? now;
    if (until <= now) held.delete(`${what} ${channel}`);
    return Math.max(now, until);
  }

  function nextAt(channel: string, now: Instant): Instant {
    return Math.max(heldUntil('posts', channel, now), posts.nextAt(channel, now));
  }

  return {
    nextAt,
    takePost(channel, now) {
      const wait = nextAt(channel, now) - now;
      if (wait === 0) posts.take(channel, now);
      return wait;
    },
    takeUpdate(channel, ts, now) {
      const message = `${channel} ${ts}`;
      const next = [ofMessage.nextAt(message, now), all.nextAt('', now)];
      const wait = Math.max(heldUntil('updates', channel, now), ...next) - now;
      if (wait > 0) return wait;
      ofMessage.take(message, now);
      all.take('', now);
      return 0;
    },
    hold(what, channel, until) {
      const key = `${what} ${channel}`;
      // Of two waits asked for the longer one counts, whichever answer came in last.
      held.set(key, Math.max(held.get(key) ?? until, until));
    },
  };
}

/** A sliding window for each key, of which only the turns that still count are kept. */
function turns({ most, withinMs }: Allowance) {
  const taken = new Map<string, readonly Instant[]>();

  function counting(key: string, now: Instant): readonly Instant[] {
    return (taken.get(key) ?? []).filter((at) => at + withinMs > now);
  }

  return {
    nextAt(key: string, now: Instant): Instant {
      const oldest = counting(key, now).at(-most);
      return oldest === undefined ? now : oldest + withinMs;
    },
    take(key: string, now: Instant): void {
      // Every message ever updated would be kept otherwise.
      for (const old of taken.keys()) if (counting(old, now).length === 0) taken.delete(old);
      taken.set(key, [...counting(key, now), now]);
    },
  };
}
