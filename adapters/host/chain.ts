import { createHash } from 'node:crypto';
import { canonicalJson } from '../../src/journal/canonical-json.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { ChainedEvent } from '../../src/ports.ts';

/** SHA-256 (FIPS 180-4) of the text in UTF-8, as 64 small hex digits. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** What the first line of a shift's journal is chained to. */
export function genesis(shift: ShiftId): string {
  return sha256(shift);
}

/** A line of the journal together with the text that was hashed. */
export interface LinkedLine extends ChainedEvent {
  readonly json: string;
}

/** Chain new events to the end of a shift's journal; `head` is the hash of its last line, null when it has none. */
export function link(
  shift: ShiftId,
  head: string | null,
  events: readonly JournalEvent[],
): readonly LinkedLine[] {
  let previous = head ?? genesis(shift);
  return events.map((event) => {
    const json = canonicalJson(event);
    const line = { event, previous, hash: sha256(previous + json), json };
    previous = line.hash;
    return line;
  });
}

export type ChainCheck =
  /** `head` is the hash of the last line, null for an empty journal. */
  | { readonly ok: true; readonly head: string | null }
  /** `line` is the first place, counted from 1, where the journal is not what was written. */
  | { readonly ok: false; readonly line: number; readonly why: string };

/**
 * Walk a shift's journal from its first line. Finds every line changed, left out, put in or moved.
 * A tail that was cut off leaves a shorter journal that is true in itself: it is found only when the `head` kept
 * somewhere else is given too.
 */
export function verifyChain(shift: ShiftId, lines: readonly ChainedEvent[], head?: string): ChainCheck {
  let previous = genesis(shift);
  for (const [index, { event, previous: claimed, hash }] of lines.entries()) {
    const line = index + 1;
    if (event.seq !== line)
      return { ok: false, line, why: `line ${event.seq} stands where line ${line} should` };
    if (claimed !== previous) return { ok: false, line, why: 'it does not follow from the line before it' };
    if (sha256(previous + canonicalJson(event)) !== hash)
      return { ok: false, line, why: 'its words do not match its hash' };
    previous = hash;
  }
  if (head !== undefined && head !== previous)
    return { ok: false, line: lines.length + 1, why: 'the lines from here on are missing' };
  return { ok: true, head: lines.length === 0 ? null : previous };
}
