import { type Logger, LogLevel, webApi } from '@slack/bolt';
import type { Log } from '../host/log.ts';

/** Less than the 10 s that the outbox waits: a call that goes on after it gave up could be made twice. */
export const CALL_TIMEOUT_MS = 8_000;

/**
 * A client of the Web API that tries each call once and says at once when it is asked to wait: the outbox tries again.
 * `apiUrl` other than the platform's own is for tests. @throws Error when the token cannot be a bot token
 */
export function createSlackClient(settings: {
  readonly token: string;
  readonly log: Log;
  readonly apiUrl?: string;
  readonly timeoutMs?: number;
}): webApi.WebClient {
  const { token, log, apiUrl, timeoutMs = CALL_TIMEOUT_MS } = settings;
  // A line break in it would come back word for word in the error text of a header.
  if (!/^xoxb-[\x21-\x7e]+$/.test(token)) {
    const mend = 'Copy the "Bot User OAuth Token" of the app, all of it and without spaces or line breaks';
    throw new Error(`The Slack token cannot be one: it must begin with "xoxb-". ${mend}.`);
  }
  return new webApi.WebClient(token, {
    ...(apiUrl === undefined ? {} : { slackApiUrl: apiUrl }),
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: timeoutMs,
    logger: slackLogger(log),
  });
}

/** What the platform's own packages warn of, as lines of our log. */
export function slackLogger(log: Log): Logger {
  const said = (words: readonly unknown[]): string => withoutSecrets(words.map(String).join(' '));
  const drop = (): void => {};
  return {
    debug: drop,
    info: drop,
    warn: (...words: unknown[]) => log.warn({ part: 'slack' }, said(words)),
    error: (...words: unknown[]) => log.error({ part: 'slack' }, said(words)),
    setLevel: drop,
    getLevel: () => LogLevel.WARN,
    setName: drop,
  };
}

/** Tokens, and whole addresses: whoever has a response_url or an upload_url can write with it. */
export function withoutSecrets(text: string): string {
  return text
    .replace(/\b(?:xox[a-z]|xapp)(?:\.xox[a-z])?-[\w-]*/gi, '[token]')
    .replace(/\b(?:https?|wss?):\/\/[^\s"')]+/gi, '[address]');
}
