import { createHash } from 'node:crypto';
import type { Command } from '../../src/model/command.ts';
import type { ShiftId } from '../../src/model/id.ts';

/**
 * The id under which a press reaches the one door: it covers what was pressed, so that nothing else passes for a repeat.
 * The surface in front keeps it from ever meeting the id of a bell, or that of another chat.
 */
export function commandIdFor(surface: string, pressId: string, member: string, command: Command): string {
  return `${surface}:${pressId}:${hashed([member, command])}`;
}

/** What a message says about the shift it is of. A button without a shift ("Post the day") has a mark as well. */
export function shiftMark(shift: ShiftId | null): string {
  return hashed([shift]).slice(0, 8);
}

/** The mark of one message: its own by `parts`, and which shift it is about. */
export function markerOf(shift: ShiftId | null, parts: readonly unknown[]): string {
  return `${hashed(parts)}.${shiftMark(shift)}`;
}

export function hashed(parts: readonly unknown[]): string {
  return createHash('sha256').update(JSON.stringify(parts)).digest('hex').slice(0, 16);
}
