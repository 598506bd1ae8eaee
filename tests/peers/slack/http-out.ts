/**
 * Requests to the app's own URL, signed as the platform signs: v0=HMAC-SHA256(secret, "v0:" + seconds + ":" + body)
 * (docs.slack.dev/authentication/verifying-requests-from-slack).
 */
import { createHmac } from 'node:crypto';
import type { PeerClock } from './clock.ts';
import { type Dict, dict, parsed } from './json.ts';
import { ACK_LIMIT } from './socket.ts';
import type { Outcome } from './types.ts';

/** How the next request is signed: rightly, or as one that an app must refuse. */
export type Signing = 'good' | 'stale' | 'future' | 'forged' | 'unsigned';

export type Signed = { body: string; headers: { [name: string]: string } };

/** Six minutes: past the five that docs.slack.dev tells apps to allow. */
const TOO_FAR = 6 * 60;

export function sign(secret: string, body: string, seconds: number): { [name: string]: string } {
  const mac = createHmac('sha256', secret).update(`v0:${seconds}:${body}`).digest('hex');
  return { 'x-slack-request-timestamp': String(seconds), 'x-slack-signature': `v0=${mac}` };
}

export function signedAs(
  signing: Signing,
  secret: string,
  body: string,
  now: number,
): { [name: string]: string } {
  const seconds = Math.floor(now / 1000);
  switch (signing) {
    case 'good':
      return sign(secret, body, seconds);
    case 'stale':
      return sign(secret, body, seconds - TOO_FAR);
    case 'future':
      return sign(secret, body, seconds + TOO_FAR);
    case 'forged':
      return sign(`${secret}-not`, body, seconds);
    case 'unsigned':
      return {};
  }
}

/** The body as the platform writes it for each kind. Bolt wants these very content types. */
export function written(kind: string, payload: Dict): Signed {
  if (kind === 'events_api')
    return { body: JSON.stringify(payload), headers: { 'content-type': 'application/json' } };
  const form = new URLSearchParams();
  if (kind === 'interactive') form.set('payload', JSON.stringify(payload));
  else for (const [name, value] of Object.entries(payload)) form.set(name, String(value));
  return { body: form.toString(), headers: { 'content-type': 'application/x-www-form-urlencoded' } };
}

/** Posts it; acked means HTTP 200 within 3 s of the peer's clock. */
export async function post(clock: PeerClock, url: string, { body, headers }: Signed): Promise<HttpOutcome> {
  const limit = new AbortController();
  const stop = clock.at(clock.now() + ACK_LIMIT, () => limit.abort());
  try {
    const response = await fetch(url, { method: 'POST', headers, body, signal: limit.signal });
    const words = await response.text();
    const noRetry = response.headers.get('x-slack-no-retry') === '1';
    const answer = parsed(words);
    const said = answer === undefined && words !== '' ? { text: words } : dict(answer);
    return { acked: response.status === 200, status: response.status, body: said, noRetry };
  } catch (error) {
    const status = limit.signal.aborted ? 'timeout' : 'refused';
    return { acked: false, status, body: {}, noRetry: false, problem: String(error) };
  } finally {
    stop();
  }
}

export type HttpOutcome = Outcome & { noRetry: boolean };
