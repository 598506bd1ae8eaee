import { failedConnection } from '../chat/connection.ts';
import type { Failed, Sent } from '../chat/outcome.ts';
import { failedCall, failedStatus, refused } from './outcome.ts';

/** Ok with what the call gave, or how it failed. */
export async function tried<T>(call: () => Promise<T>): Promise<Exclude<Sent<T>, { kind: 'later' }>> {
  try {
    return { kind: 'ok', value: await call() };
  } catch (error) {
    return failedCall(error);
  }
}

/** The platform said yes, but not what is needed to go on. */
export function answered<T>(value: T | undefined, what: string): Exclude<Sent<T>, { kind: 'later' }> {
  if (value !== undefined) return { kind: 'ok', value };
  return { kind: 'unclear', why: `Slack said yes without naming ${what}; it may have been shown or not.` };
}

/** One POST to an address that the platform gave. Never follows it elsewhere. `goneCode` is what a 404 means there. */
export async function posted(
  address: string,
  body: string | Uint8Array,
  type: string,
  timeoutMs: number,
  goneCode: string,
): Promise<{ readonly kind: 'ok' } | Failed> {
  try {
    const response = await fetch(address, {
      method: 'POST',
      headers: { 'content-type': type },
      body,
      redirect: 'error',
      signal: AbortSignal.timeout(timeoutMs),
    });
    // Read to its end, or the connection stays taken.
    await response.arrayBuffer();
    if (response.ok) return { kind: 'ok' };
    if (response.status === 404) return refused(goneCode);
    const wait = response.headers.get('retry-after');
    return failedStatus(response.status, wait === null ? null : Number.parseInt(wait, 10));
  } catch (error) {
    return failedConnection(error, 'Slack');
  }
}
