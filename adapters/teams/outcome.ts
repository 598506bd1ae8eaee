import { failedConnection } from '../chat/connection.ts';
import type { Failed } from '../chat/outcome.ts';
import { TeamsRefused } from './http.ts';
import { refusals } from './outcome-words.ts';
import { NoToken } from './token.ts';

/**
 * What a call through `onceOnlyHttp` threw. The platform's table of status codes (see `outcome-words.ts`) has 412, 429,
 * 502, 503 and 504 tried again. Of these a 5xx may come after the message was taken in, so it is tried again as
 * `unclear`: the next try is then marked as a possible repeat. So is 500, which the table would not try again: a bell
 * that is lost does more harm than one that comes twice.
 */
export function failedCall(error: unknown): Failed {
  if (error instanceof NoToken) return failedToken(error);
  if (error instanceof TeamsRefused) return failedStatus(error);
  return failedConnection(error, 'Teams');
}

export function failedStatus({
  status,
  code,
  retryAfter,
}: Pick<TeamsRefused, 'status' | 'code' | 'retryAfter'>): Failed {
  if (status === 429) {
    if (retryAfter === null) return { kind: 'retry', why: 'Teams asks to write less often.' };
    return { kind: 'retry', why: `Teams asks to wait ${retryAfter} s.`, afterMs: retryAfter * 1000 };
  }
  if (status === 412) return { kind: 'retry', why: 'Teams was busy with the same conversation (HTTP 412).' };
  if (status === 408 || status >= 500)
    return { kind: 'unclear', why: `Teams is out of order (HTTP ${status}); it may have been shown or not.` };
  if (status === 413) return refused('MessageSizeTooBig');
  if (status === 401) return refused('Unauthorized');
  if (movedAway(status, code)) {
    const mend = 'Write to Potbell in Teams once: with that it learns the new address.';
    return { kind: 'retry', why: `There is no Teams at the address it last gave (HTTP 404). ${mend}` };
  }
  if (code !== null) return refused(code);
  if (status === 403) return refused('Forbidden');
  const between =
    'Something between Potbell and Teams may be in the way, such as a proxy: check the network.';
  return { kind: 'retry', why: `HTTP ${status} instead of an answer of Teams. ${between}` };
}

/** A 404 that is not about a conversation, a message or a person: the connector itself is no longer there. */
export function movedAway(status: number, code: string | null): boolean {
  return status === 404 && (code === null || !Object.hasOwn(refusals, code));
}

/** @param code the platform's name for it, such as "BotDisabledByAdmin" */
export function refused(code: string): Extract<Failed, { kind: 'gone' }> {
  const known = Object.hasOwn(refusals, code) ? refusals[code] : undefined;
  const unknown =
    'Teams refuses this for a reason that Potbell has no words for. Look it up in the list of status codes for bots';
  return { kind: 'gone', code, why: `${known ?? unknown} (${code}).` };
}

/** Without a token nothing was sent. */
function failedToken({ code }: NoToken): Failed {
  if (code !== null && Object.hasOwn(refusals, code)) return refused(code);
  const named = code === null ? '' : ` (${code})`;
  return { kind: 'retry', why: `Microsoft gives Potbell no token at the moment${named}. Check the network.` };
}
