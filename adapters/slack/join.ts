import { createServer, type Server } from 'node:http';
import { HTTPReceiver, type Receiver, SocketModeReceiver } from '@slack/bolt';
import type { Clock } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';
import type { BotIds, SlackApp } from './app.ts';
import { slackLogger } from './client.ts';
import type { SlackConfig } from './config.ts';

/** How long until the next try to join, ms: soon at first, then once a minute. */
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;
/** Also what Bolt waits before it opens a lost connection again. */
const PING_TIMEOUT_MS = 1_000;
/** A signature from further ahead is no clock that runs a little fast. Bolt looks at old ones only. */
const MOST_AHEAD_S = 300;

export interface Joining {
  /** Null while it is joined; else why not, in words. */
  problem(): string | null;
  stop(): Promise<void>;
}

/**
 * Joins Slack when it can, and goes on trying: Potbell runs without it. `whoAmI` asks for the bot's ids and fails while
 * Slack is away or refuses the token.
 */
export function joinSlack(
  app: SlackApp,
  config: SlackConfig,
  whoAmI: () => Promise<BotIds>,
  log: Log,
  clock: Clock,
): Joining {
  let problem: string | null = 'Slack is being joined';
  let stopped = false;
  let timer: NodeJS.Timeout | null = null;
  let leave: (() => Promise<void>) | null = null;

  async function attempt(wait: number): Promise<void> {
    try {
      const joined = await connect(app, config, await whoAmI(), log, clock);
      problem = null;
      leave = joined;
      log.info({}, 'joined Slack');
      if (stopped) await joined();
    } catch (error) {
      problem = `Slack could not be joined: ${error instanceof Error ? error.message : String(error)}`;
      log.warn({ problem, again: wait }, 'Slack could not be joined; trying again');
      if (!stopped) timer = setTimeout(() => void attempt(Math.min(wait * 2, LONGEST_WAIT_MS)), wait);
    }
  }
  const first = attempt(FIRST_WAIT_MS);

  return {
    problem: () => problem,
    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
      await first;
      await leave?.();
    },
  };
}

async function connect(
  app: SlackApp,
  config: SlackConfig,
  ids: BotIds,
  log: Log,
  clock: Clock,
): Promise<() => Promise<void>> {
  if (config.way.kind === 'http') {
    const { signingSecret, port } = config.way;
    const receiver = new HTTPReceiver({ signingSecret, logger: slackLogger(log) });
    app.connect(receiver, ids, config.botToken);
    const server = await listen(receiver, port, clock);
    return async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    };
  }
  const receiver: Receiver = new SocketModeReceiver({
    appToken: config.way.appToken,
    logger: slackLogger(log),
    clientPingTimeout: PING_TIMEOUT_MS,
    // Its own client options: with `retries: 0` one reconnect that fails would be the last.
    ...(config.apiUrl !== null && {
      installerOptions: { clientOptions: { slackApiUrl: config.apiUrl } },
    }),
  });
  const bolt = app.connect(receiver, ids, config.botToken);
  await bolt.start();
  return async () => void (await bolt.stop());
}

/** Requests that claim to come from the future are turned away before Bolt sees them. */
async function listen(receiver: HTTPReceiver, port: number, clock: Clock): Promise<Server> {
  const server = createServer((request, response) => {
    const claimed = Number(request.headers['x-slack-request-timestamp'] ?? Number.NaN);
    if (claimed > clock.now() / 1000 + MOST_AHEAD_S) {
      response.writeHead(401).end();
      return;
    }
    receiver.requestListener(request, response);
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, () => resolve());
  });
  return server;
}
