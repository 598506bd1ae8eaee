import type { Shift } from '../model/shift.ts';

/**
 * Under which key a bell is said: the same for each ring and the answer, so that a bell that is due earlier than when it
 * rang first goes on as the same one.
 */
export const messageKey = (bell: string, { bells }: Shift): string => `bell:${bell}:${bells[bell]?.dueAt}`;

/** The bell that is said under this key; null for what is no bell. */
export function bellOf(key: string): string | null {
  return /^bell:(.+):-?\d+$/.exec(key)?.[1] ?? null;
}
