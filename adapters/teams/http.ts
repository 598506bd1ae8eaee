import type { ConnectorClient } from 'botframework-connector';

/** For one call, its token not counted: together they stay below the 10 s that the outbox waits (`TOKEN_TIMEOUT_MS`). */
export const CALL_TIMEOUT_MS = 7_000;

/** The connector said no. Nothing of its text is kept: only its name for the reason, when it looks like a name. */
export class TeamsRefused extends Error {
  override readonly name = 'TeamsRefused';
  readonly status: number;
  /** Such as "BotNotInConversationRoster"; null when the answer has none, so that it may not be one of Teams. */
  readonly code: string | null;
  /** Seconds. */
  readonly retryAfter: number | null;

  constructor(status: number, code: string | null, retryAfter: number | null) {
    super(`Teams answered ${status}${code === null ? '' : ` ${code}`}`);
    this.status = status;
    this.code = code;
    this.retryAfter = retryAfter;
  }
}

type ClientOptions = NonNullable<ConstructorParameters<typeof ConnectorClient>[1]>;
export type HttpClient = NonNullable<ClientOptions['httpClient']>;

/**
 * How the connector's client reaches Teams: one request a call and no more, with a time limit. Its own way would post
 * up to four times after a dropped connection, which shows a message four times, and would wait for ever. What is thrown
 * here it does not try again. Never follows the platform elsewhere: the bot's token would go along.
 */
export function onceOnlyHttp(timeoutMs: number = CALL_TIMEOUT_MS): HttpClient {
  return {
    async sendRequest(request) {
      const sent: Record<string, string> = {};
      for (const { name, value } of request.headers.headersArray()) sent[name] = value;
      const { method, url } = request;
      const response = await fetch(url, {
        method,
        headers: sent,
        redirect: 'error',
        signal: AbortSignal.timeout(timeoutMs),
        ...(typeof request.body === 'string' && { body: request.body }),
      });
      const bodyAsText = await response.text();
      if (!response.ok)
        throw new TeamsRefused(
          response.status,
          codeIn(bodyAsText),
          seconds(response.headers.get('retry-after')),
        );
      const headers = request.headers.clone();
      for (const { name } of headers.headersArray()) headers.remove(name);
      response.headers.forEach((value, name) => {
        headers.set(name, value);
      });
      return { request, status: response.status, headers, bodyAsText };
    },
  };
}

/** The `error.code` of a refusal: learn.microsoft.com/azure/bot-service/rest-api, "ErrorResponse object". */
function codeIn(body: string): string | null {
  let data: unknown;
  try {
    data = JSON.parse(body);
  } catch {
    // A page of something in between: it has no code, and that is what the caller is told.
    return null;
  }
  const error = typeof data === 'object' && data !== null && 'error' in data ? data.error : null;
  const code = typeof error === 'object' && error !== null && 'code' in error ? error.code : null;
  return typeof code === 'string' && /^[A-Za-z]\w{0,80}$/.test(code) ? code : null;
}

/** Retry-After in seconds; a date in it counts as none named. */
function seconds(header: string | null): number | null {
  return header !== null && /^\d{1,6}$/.test(header.trim()) ? Number(header) : null;
}
