import { type Allowance, createPace, type Pace } from '../../src/chat/pace.ts';

const source = 'learn.microsoft.com/microsoftteams/platform/bots/how-to/rate-limit';

/** Per bot and conversation; the platform calls the figures an estimate. Making a conversation has the same. */
export const sendAllowances = [
  { most: 7, withinMs: 1_000, source },
  { most: 8, withinMs: 2_000, source },
  { most: 60, withinMs: 30_000, source },
  { most: 1_800, withinMs: 3_600_000, source },
] as const satisfies readonly Allowance[];

/** Everything together, for the whole organisation. */
export const tenantAllowance: Allowance = { most: 30, withinMs: 1_000, source };

/** So that one message that changes often ("5 of 7 signed") leaves room for the others. */
const updatesOfMessage: Allowance = { most: 1, withinMs: 2_000, source: 'our own choice, no source' };

const ALL = '';

/** Pace as Teams asks for it. The page does not say where updates count: here they count as sends. */
export function createTeamsPace(): Pace {
  const updates = tenantAllowance;
  const windows = sendAllowances.map((one) => createPace({ postsInChannel: one, updatesOfMessage, updates }));
  const tenant = createPace({ postsInChannel: tenantAllowance, updatesOfMessage, updates });
  const [first = tenant] = windows;

  function nextAt(channel: string, now: number): number {
    return Math.max(tenant.nextAt(ALL, now), ...windows.map((one) => one.nextAt(channel, now)));
  }

  function take(channel: string, now: number): void {
    tenant.takePost(ALL, now);
    for (const one of windows) one.takePost(channel, now);
  }

  return {
    nextAt,
    takePost(channel, now) {
      const wait = nextAt(channel, now) - now;
      if (wait === 0) take(channel, now);
      return wait;
    },
    takeUpdate(channel, id, now) {
      const wait = nextAt(channel, now) - now;
      if (wait > 0) return wait;
      const own = first.takeUpdate(channel, id, now);
      if (own === 0) take(channel, now);
      return own;
    },
    // Whatever the platform asked to wait with, it counts the conversation.
    hold(_what, channel, until) {
      first.hold('posts', channel, until);
    },
  };
}
