import {
  WebAPIHTTPError,
  WebAPIPlatformError,
  WebAPIRateLimitedError,
  WebAPIRequestError,
} from '@slack/web-api';

/** What Slack said to one question. `code` is its own name for a refusal, such as `channel_not_found`. */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly code: string; readonly needed: string | null };

/** Nothing more can be asked now. The message says why, as a sentence. */
export class SlackAway extends Error {
  override readonly name = 'SlackAway';
}

/** @throws SlackAway when no answer of Slack's comes; anything else that is thrown is a fault of ours. */
export async function ask<T>(call: Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await call };
  } catch (error) {
    if (error instanceof WebAPIPlatformError) return refusal(error.data);
    if (error instanceof WebAPIRequestError)
      throw new SlackAway(`Slack cannot be reached (${reason(error.original)}).`, { cause: error });
    if (error instanceof WebAPIHTTPError)
      throw new SlackAway(`Slack answers with HTTP ${error.statusCode}: it has trouble of its own.`, {
        cause: error,
      });
    if (error instanceof WebAPIRateLimitedError)
      throw new SlackAway(`Slack asks to wait ${error.retryAfter} s: too many questions at once.`, {
        cause: error,
      });
    throw error;
  }
}

function refusal({ error, needed }: { readonly error: string; readonly needed?: unknown }): Answer<never> {
  // The client takes whatever is no JSON for the name of an error: on site networks that is a page to log in on.
  if (!/^[a-z0-9_]{1,80}$/i.test(error))
    throw new SlackAway(
      'Something answers that is not Slack, perhaps a page of this network to log in on. Open a web page here once.',
    );
  return { ok: false, code: error, needed: typeof needed === 'string' && needed !== '' ? needed : null };
}

/** "fetch failed" says nothing; what it was caused by does. */
function reason(error: Error): string {
  const { cause } = error;
  if (error.name === 'TimeoutError') return 'no answer in time';
  if (!(cause instanceof Error)) return error.message;
  return 'code' in cause && typeof cause.code === 'string' ? cause.code : cause.message;
}
