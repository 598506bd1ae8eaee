import type { Failed } from '../chat/outcome.ts';
import { TeamsRefused } from './http.ts';
import { refusals } from './outcome-words.ts';
import { NoToken } from './token.ts';

/** nodejs.org/api/tls.html#x509-certificate-error-codes: the connection is given up before anything is sent. */
const badCertificate =
  /^(CERT_|DEPTH_ZERO_SELF_SIGNED|SELF_SIGNED_CERT|UNABLE_TO_(GET_ISSUER|VERIFY)|ERR_TLS_CERT)/;

/**
 * What a call through `onceOnlyHttp` threw. The platform's table of status codes (see `outcome-words.ts`) has 412, 429,
 * 502, 503 and 504 tried again. Of these a 5xx may come after the message was taken in, so it is tried again as
 * `unclear`: the next try is then marked as a possible repeat. So is 500, which the table would not try again: a bell
 * that is lost does more harm than one that comes twice.
 */
export function failedCall(error: unknown): Failed {
  if (error instanceof NoToken) return failedToken(error);
  if (error instanceof TeamsRefused) return failedStatus(error);
  return failedConnection(error);
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

/** @param error what `fetch` threw */
export function failedConnection(error: unknown): Failed {
  const ends = lastCauses(error);
  const codes = [...new Set(ends.map(nameOf))].join(', ');
  if (ends.length > 0 && ends.every((end) => badCertificate.test(nameOf(end)))) {
    const mend = 'Check the date of this computer and what stands between it and Teams.';
    return { kind: 'retry', why: `The certificate of Teams does not hold (${codes}). ${mend}` };
  }
  if (ends.length > 0 && ends.every(neverSent))
    return { kind: 'retry', why: `Teams cannot be reached (${codes}). Check the network of this computer.` };
  if (ends.some((end) => nameOf(end) === 'TimeoutError'))
    return { kind: 'unclear', why: 'Teams did not answer in time; it may have been shown or not.' };
  return { kind: 'unclear', why: `The connection to Teams broke (${codes}); it may have been shown or not.` };
}

/** Down the causes to their ends. More than one when several addresses of a host were tried. */
function lastCauses(error: unknown): readonly unknown[] {
  if (error instanceof AggregateError && error.errors.length > 0) return error.errors.flatMap(lastCauses);
  if (error instanceof Error && error.cause !== undefined) return lastCauses(error.cause);
  return [error];
}

function neverSent(end: unknown): boolean {
  if (!(end instanceof Error)) return false;
  const call = 'syscall' in end ? end.syscall : undefined;
  return call === 'connect' || call === 'getaddrinfo' || nameOf(end) === 'UND_ERR_CONNECT_TIMEOUT';
}

/** A code or a class, never a text: texts of errors can hold the token. */
function nameOf(end: unknown): string {
  if (!(end instanceof Error)) return 'unknown';
  const code = 'code' in end && typeof end.code === 'string' ? end.code : end.name;
  return /^\w{1,60}$/.test(code) ? code : 'unknown';
}
