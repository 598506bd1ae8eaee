import { webApi } from '@slack/bolt';
import { failedConnection } from '../chat/connection.ts';
import type { Failed } from '../chat/outcome.ts';
import { refusals } from './outcome-words.ts';

/** What the platform says when it took nothing in and will take it soon. docs.slack.dev, errors of each method. */
const comeAgain = new Set(['ratelimited', 'rate_limited', 'service_unavailable', 'request_timeout']);
/** "It's possible some aspect of the operation succeeded before the error was raised." Same source. */
const halfDone = new Set(['fatal_error', 'internal_error']);
/** What a call to the Web API threw (@slack/web-api 8.2, errors.d.ts) or a plain `fetch`. */
export function failedCall(error: unknown): Failed {
  if (error instanceof webApi.WebAPIPlatformError) return refused(error.data.error);
  if (error instanceof webApi.WebAPIRateLimitedError) return failedStatus(429, error.retryAfter);
  if (error instanceof webApi.WebAPIHTTPError) return failedStatus(error.statusCode, null);
  // The client has no class for a 429 without a time to wait.
  if (error instanceof Error && error.message.startsWith('Retry header did not contain'))
    return failedStatus(429, null);
  return failedConnection(error, 'Slack');
}

/** An HTTP status that is not a success; `retryAfter` in seconds. */
export function failedStatus(status: number, retryAfter: number | null): Failed {
  if (status === 429) {
    if (retryAfter === null || !(retryAfter >= 0))
      return { kind: 'retry', why: 'Slack asks to write less often.' };
    return { kind: 'retry', why: `Slack asks to wait ${retryAfter} s.`, afterMs: retryAfter * 1000 };
  }
  if (status === 413) return refused('msg_too_long');
  if (status === 408 || status >= 500)
    return { kind: 'unclear', why: `Slack is out of order (HTTP ${status}); it may have been shown or not.` };
  const between =
    'Something between Potbell and Slack may be in the way, such as a proxy: check the network.';
  return { kind: 'retry', why: `HTTP ${status} instead of an answer of Slack. ${between}` };
}

/** What the platform said no to. `code` is its name for it, such as "is_archived". */
export function refused(code: string): Failed {
  // The client gives a body that is no JSON as the error: a login page of the network, for instance.
  if (!/^[a-z][a-z0-9_.]{0,80}$/.test(code)) {
    return {
      kind: 'unclear',
      why: 'An answer came that is not one of Slack. Check what stands between Potbell and Slack, such as a proxy.',
    };
  }
  if (comeAgain.has(code)) return { kind: 'retry', why: `Slack takes nothing at the moment (${code}).` };
  if (halfDone.has(code))
    return { kind: 'unclear', why: `Slack broke off (${code}); it may have been shown or not.` };
  const known = Object.hasOwn(refusals, code) ? refusals[code] : undefined;
  const unknown =
    'Slack refuses this for a reason that Potbell has no words for. Look it up in the list of Slack’s errors';
  return { kind: 'gone', code, why: `${known ?? unknown} (${code}).` };
}
