/** A Bolt app of the real package, put up against the peer in either way. */
import { App, HTTPReceiver, type Logger, LogLevel, SocketModeReceiver } from '@slack/bolt';
import type { SlackPeer } from './peer.ts';

/** `log` holds what Bolt warned of and called an error. */
export type Running = { app: App; log: readonly string[]; stop: () => Promise<void> };

/** What an app that minds its own retries sets; see docs.slack.dev/tools/node-slack-sdk/web-api. */
const CLIENT = { retryConfig: { retries: 0 }, rejectRateLimitedCalls: true, timeout: 10_000 } as const;

/** Quick tries to get a new WebSocket address, so that no test waits long. */
const AGAIN = { retries: 1000, minTimeout: 20, maxTimeout: 50 } as const;

function keeper(log: string[]): Logger {
  const keep = (...said: unknown[]): void => {
    log.push(said.map(String).join(' '));
  };
  const drop = (): void => {};
  return {
    debug: drop,
    info: drop,
    warn: keep,
    error: keep,
    setLevel: drop,
    getLevel: () => LogLevel.WARN,
    setName: drop,
  };
}

function appOn(slack: SlackPeer, receiver: HTTPReceiver | SocketModeReceiver, logger: Logger): App {
  return new App({
    token: slack.tokens.bot,
    botId: slack.bot.botId,
    botUserId: slack.bot.userId,
    tokenVerificationEnabled: false,
    logger,
    receiver,
    clientOptions: { slackApiUrl: slack.apiUrl, ...CLIENT },
  });
}

/** `pingTimeout` (ms) is also what Bolt waits before it connects again. */
export async function overSocket(
  slack: SlackPeer,
  ready: (app: App) => void,
  pingTimeout = 5000,
): Promise<Running> {
  const log: string[] = [];
  const logger = keeper(log);
  const receiver = new SocketModeReceiver({
    appToken: slack.tokens.app,
    logger,
    clientPingTimeout: pingTimeout,
    // Its own client options: with the app's `retries: 0` one failed reconnect would be the last.
    installerOptions: { clientOptions: { slackApiUrl: slack.apiUrl, retryConfig: AGAIN } },
  });
  const app = appOn(slack, receiver, logger);
  ready(app);
  await app.start();
  return { app, log, stop: () => app.stop().then(() => {}) };
}

export async function overHttp(slack: SlackPeer, ready: (app: App) => void): Promise<Running> {
  const log: string[] = [];
  const logger = keeper(log);
  const receiver = new HTTPReceiver({ signingSecret: slack.signingSecret, logger });
  const app = appOn(slack, receiver, logger);
  ready(app);
  const server = await receiver.start({ port: 0, host: '127.0.0.1' });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The app is not listening on a port.');
  slack.httpTo(`http://127.0.0.1:${address.port}/slack/events`);
  const stop = async (): Promise<void> => {
    const gone = receiver.stop();
    server.closeAllConnections();
    await gone;
  };
  return { app, log, stop };
}
