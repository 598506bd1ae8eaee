import { createServer } from 'node:http';
import { HTTPReceiver, SocketModeReceiver } from '@slack/bolt';
import type { Clock } from '../../src/ports.ts';
import { listen } from '../chat/listen.ts';
import type { Log } from '../host/log.ts';
import type { BotIds, SlackApp } from './app.ts';
import { ask, SlackAway } from './ask.ts';
import { CALL_TIMEOUT_MS, slackLogger } from './client.ts';
import type { SlackConfig, SlackWay } from './config.ts';
import { refused } from './outcome.ts';

/** How long a ping may go unanswered before the connection counts as lost. */
const PING_TIMEOUT_MS = 5_000;
/** A signature from further ahead is no clock that runs a little fast. Bolt looks at old ones only. */
const MOST_AHEAD_S = 300;

/** How Slack's events come in. */
export interface Link {
  /** Also after it was lost. @throws Error with a sentence that says why it does not open */
  open(): Promise<void>;
  close(): Promise<void>;
}

export function linkTo(
  app: SlackApp,
  config: SlackConfig,
  ids: BotIds,
  log: Log,
  clock: Clock,
  lost: () => void,
  pingMs: number = PING_TIMEOUT_MS,
): Link {
  const { way } = config;
  return way.kind === 'http'
    ? httpLink(app, config, way, ids, log, clock)
    : socketLink(app, config, way, ids, log, lost, pingMs);
}

function socketLink(
  app: SlackApp,
  config: SlackConfig,
  { appToken }: Extract<SlackWay, { kind: 'socket' }>,
  ids: BotIds,
  log: Log,
  lost: () => void,
  clientPingTimeout: number,
): Link {
  const receiver = new SocketModeReceiver({
    appToken,
    logger: slackLogger(log),
    clientPingTimeout,
    // Its own way back breaks the process when Slack refuses the token, and takes ever longer: see `joinSlack`.
    autoReconnectEnabled: false,
    installerOptions: {
      clientOptions: {
        retryConfig: { retries: 0 },
        rejectRateLimitedCalls: true,
        timeout: CALL_TIMEOUT_MS,
        ...(config.apiUrl !== null && { slackApiUrl: config.apiUrl }),
      },
    },
  });
  const bolt = app.connect(receiver, ids, config.botToken);
  let open = false;
  receiver.client.on('disconnected', () => {
    if (!open) return;
    open = false;
    lost();
  });
  return {
    async open() {
      const answer = await ask(bolt.start().catch(closedAtOnce));
      if (!answer.ok) throw new SlackAway(refused(answer.code).why);
      open = true;
    },
    async close() {
      open = false;
      await bolt.stop();
    },
  };
}

/** Bolt rejects with nothing when the connection closes before Slack has said hello. */
function closedAtOnce(error: unknown): never {
  throw error ?? new SlackAway('Slack closed the connection before it said hello.');
}

function httpLink(
  app: SlackApp,
  config: SlackConfig,
  { signingSecret, port }: Extract<SlackWay, { kind: 'http' }>,
  ids: BotIds,
  log: Log,
  clock: Clock,
): Link {
  const receiver = new HTTPReceiver({ signingSecret, logger: slackLogger(log) });
  app.connect(receiver, ids, config.botToken);
  // Requests that claim to come from the future are turned away before Bolt sees them.
  const server = createServer((request, response) => {
    const claimed = Number(request.headers['x-slack-request-timestamp'] ?? Number.NaN);
    if (claimed > clock.now() / 1000 + MOST_AHEAD_S) {
      response.writeHead(401).end();
      return;
    }
    receiver.requestListener(request, response);
  });
  return {
    async open() {
      await listen(server, port);
      const address = server.address();
      log.info({ port: typeof address === 'object' && address ? address.port : port }, 'listening for Slack');
    },
    async close() {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
