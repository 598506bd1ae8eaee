/**
 * How often the connector lets a bot call. Numbers: learn.microsoft.com/microsoftteams/platform/bots/how-to/
 * rate-limit, "per bot per thread" (a thread is a one-to-one chat, a group chat or a channel) and 30 requests a
 * second per app per tenant. The page does not say where updates and deletions count; here they count as sends.
 */
import type { PeerClock } from '../slack/clock.ts';

export type Limited = 'send' | 'create' | 'members';

type Window = { seconds: number; most: number };

const SENDS: readonly Window[] = [
  { seconds: 1, most: 7 },
  { seconds: 2, most: 8 },
  { seconds: 30, most: 60 },
  { seconds: 3600, most: 1800 },
];

const LIMITS: { readonly [kind in Limited]: readonly Window[] } = {
  send: SENDS,
  create: SENDS,
  members: [
    { seconds: 1, most: 14 },
    { seconds: 2, most: 16 },
    { seconds: 30, most: 120 },
    { seconds: 3600, most: 3600 },
  ],
};

const TENANT: readonly Window[] = [{ seconds: 1, most: 30 }];
const LONGEST = 3600;

export type Rates = {
  /** Seconds to wait (1 or more), or null when the call may go on. A refused call does not count. */
  take(kind: Limited, thread: string): number | null;
};

export function startRates(clock: PeerClock): Rates {
  const taken = new Map<string, number[]>();

  function recent(key: string): number[] {
    const kept = (taken.get(key) ?? []).filter((at) => at > clock.now() - LONGEST * 1000);
    taken.set(key, kept);
    return kept;
  }

  /** The oldest of the calls that fill a window decides how long it stays full. */
  function wait(calls: readonly number[], windows: readonly Window[]): number {
    let longest = 0;
    for (const { seconds, most } of windows) {
      const filling = calls.at(-most);
      if (calls.length < most || filling === undefined) continue;
      longest = Math.max(longest, filling + seconds * 1000 - clock.now());
    }
    return longest;
  }

  return {
    take(kind, thread) {
      const own = recent(`${kind} ${thread}`);
      const all = recent('tenant');
      const ms = Math.max(wait(own, LIMITS[kind]), wait(all, TENANT));
      if (ms > 0) return Math.max(1, Math.ceil(ms / 1000));
      own.push(clock.now());
      all.push(clock.now());
      return null;
    },
  };
}
