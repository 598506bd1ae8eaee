import { setTimeout as sleep } from 'node:timers/promises';
import { createPace } from '../../src/chat/pace.ts';
import { readTyped } from '../../src/chat/read-typed.ts';
import { HOUR } from '../../src/model/time.ts';
import { type Again, onTimer } from '../chat/again.ts';
import { forgetOld } from '../chat/forget.ts';
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
import { talkWords } from './talk-words.ts';

/** How Slack waits, where it is not by the clock of this computer. */
export interface SlackWaits {
  readonly wait?: (ms: number) => Promise<void>;
  readonly again?: Again;
  /** How long a call may take, ms. */
  readonly timeoutMs?: number;
}

const onClock = async (ms: number): Promise<void> => void (await sleep(ms));

/** Loaded only when Slack is configured: its packages take a while to load, and most of a site's commands need none. */
export function composeSlack(
  config: SlackConfig,
  services: Omit<
    ChatServices,
    'surface' | 'personOf' | 'memberOf' | 'readTyped' | 'words' | 'wait' | 'notices'
  >,
  log: Log,
  { wait = onClock, again = onTimer, timeoutMs }: SlackWaits = {},
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
    readTyped,
    words: talkWords,
    wait,
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

  let forgotten = Number.NEGATIVE_INFINITY;

  /** At the start, and with the first commit a day later: a Potbell that runs for months needs it too. */
  function forgetDaily(): void {
    const now = services.clock.now();
    if (now - forgotten < 24 * HOUR) return;
    forgotten = now;
    forgetOld(services.memory, SLACK, now).catch((error: unknown) =>
      log.warn({ err: error }, 'what Slack needs no more could not be forgotten'),
    );
  }

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
      await watch.settled();
    },
    stop: () => watch.stop(),
    join() {
      // What was armed before a restart is looked at once, whatever Slack says to the joining.
      watch.changed();
      forgetDaily();
      return joinSlack(app, config, whoAmI, log, services.clock, again);
    },
  };
}
