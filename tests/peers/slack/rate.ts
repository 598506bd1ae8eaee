/**
 * How often the platform lets an app call. Numbers: docs.slack.dev/apis/web-api/rate-limits (tiers are "N+ a minute";
 * the peer takes the N), 1 message a second a channel with "short bursts" allowed (the size of a burst is not
 * published; 3 is ours).
 */
import type { PeerClock } from './clock.ts';

const TIERS: { readonly [method: string]: number } = {
  'chat.update': 50,
  'chat.delete': 50,
  'chat.postEphemeral': 100,
  'chat.scheduleMessage': 50,
  'chat.deleteScheduledMessage': 50,
  'chat.scheduledMessages.list': 50,
  'views.open': 100,
  'views.update': 100,
  'views.push': 100,
  'views.publish': 100,
  'conversations.open': 50,
  'conversations.info': 50,
  'conversations.members': 100,
  'conversations.history': 50,
  'conversations.replies': 50,
  'users.info': 100,
  'users.list': 20,
  'usergroups.users.list': 20,
  'files.completeUploadExternal': 100,
  'bots.info': 50,
};

const MINUTE = 60_000;
const SECOND = 1000;

export type Rates = {
  /** Seconds to wait, or null when the call may go on. */
  method(name: string): number | null;
  /** Seconds to wait before this channel takes another message, or null. */
  post(channelId: string): number | null;
};

export function startRates(clock: PeerClock, burst: number, tiers: boolean): Rates {
  const calls = new Map<string, number[]>();
  const channels = new Map<string, { tokens: number; at: number }>();
  return {
    method(name) {
      const most = TIERS[name];
      if (!tiers || most === undefined) return null;
      const now = clock.now();
      const recent = (calls.get(name) ?? []).filter((at) => at > now - MINUTE);
      calls.set(name, recent);
      const oldest = recent[0];
      if (recent.length >= most && oldest !== undefined)
        return Math.max(1, Math.ceil((oldest + MINUTE - now) / SECOND));
      recent.push(now);
      return null;
    },
    post(channelId) {
      const now = clock.now();
      const before = channels.get(channelId) ?? { tokens: burst, at: now };
      const tokens = Math.min(burst, before.tokens + (now - before.at) / SECOND);
      if (tokens < 1) {
        channels.set(channelId, { tokens, at: now });
        return Math.max(1, Math.ceil(1 - tokens));
      }
      channels.set(channelId, { tokens: tokens - 1, at: now });
      return null;
    },
  };
}
