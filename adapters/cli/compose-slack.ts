import { createPace } from '../../src/chat/pace.ts';
import { onTimer } from '../chat/again.ts';
import { createForgetting, forgetOld } from '../chat/forget.ts';
import type { ChatServices } from '../chat/services.ts';
import type { Log } from '../host/log.ts';
import { createSlackApp } from '../slack/app.ts';
import { type BackstopWatch, createBackstopWatch } from '../slack/backstop-watch.ts';
import { createSlackClient } from '../slack/client.ts';
import type { SlackConfig } from '../slack/config.ts';
import { joinSlack } from '../slack/join.ts';
import { memberOf, personOf } from '../slack/people.ts';
import { createSender } from '../slack/sender.ts';
import { SLACK } from '../slack/services.ts';
import { type ChatWaits, onClock, type SiteParts, talking } from './chat-parts.ts';

/** Loaded only when Slack is configured: its packages take a while to load, and most of a site's commands need none. */
export function composeSlack(
  config: SlackConfig,
  services: SiteParts,
  log: Log,
  { wait = onClock, again = onTimer, timeoutMs, pingMs }: ChatWaits = {},
) {
  const client = createSlackClient({
    token: config.botToken,
    log,
    ...(config.apiUrl !== null && { apiUrl: config.apiUrl }),
    ...(timeoutMs !== undefined && { timeoutMs }),
  });
  const out = createSender({ client, clock: services.clock, pace: createPace(), log });
  const whole: ChatServices = {
    ...services,
    surface: SLACK,
    personOf,
    memberOf,
    ...talking,
    wait,
    again,
    notices: async () => (await watch.states()).map(({ ref, rig, words }) => `${rig}, ${ref}: ${words}`),
  };
  const watch: BackstopWatch = createBackstopWatch(whole, out, again);
  const app = createSlackApp(whole, out, watch.seen, again);

  async function whoAmI() {
    const { bot_id: botId, user_id: botUserId } = await client.auth.test();
    if (botId === undefined || botUserId === undefined)
      throw new Error('Slack did not say which bot this token is for: it must be a bot token.');
    return { botId, botUserId };
  }

  const forgetDaily = createForgetting({ clock: services.clock, log, surface: SLACK }, (now) =>
    forgetOld(services.memory, SLACK, now),
  );

  return {
    surface: app.surface,
    changed() {
      forgetDaily();
      app.homes.changed();
      watch.changed();
    },
    /** What people have to hear by another way, in words. */
    problems: () => watch.troubles(),
    async settled() {
      await app.homes.settled();
      await app.surface.settled();
      await watch.settled();
    },
    stop: () => watch.stop(),
    join() {
      // What was armed before a restart is looked at once, whatever Slack says to the joining.
      watch.changed();
      forgetDaily();
      return joinSlack(app, config, whoAmI, log, services.clock, again, pingMs);
    },
  };
}
