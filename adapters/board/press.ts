import type { Actor } from '../../src/model/actor.ts';
import type { Command } from '../../src/model/command.ts';
import { MINUTE } from '../../src/model/time.ts';
import type { Outcome } from '../../src/ports.ts';
import { commandIdFor } from './inbound.ts';
import type { BoardParts } from './parts.ts';
import type { Press, Visit } from './session.ts';

/** What is heavy needs a PIN typed within this time: the screen is shared, and the person may have walked away. */
const FRESH_WITHIN = 3 * MINUTE;

/** Presses that put a name under something: they sign, lift a hold, post the day or end it. */
export function needsFreshPin(command: Command): boolean {
  switch (command.type) {
    case 'sign':
    case 'clear-stop-work':
    case 'clear-tag':
    case 'resolve-concern':
    case 'post-day':
    case 'close-shift':
    // It takes a clock away.
    case 'void-batch':
      return true;
    case 'answer':
      return command.witnessFor !== undefined;
    case 'issue-briefing':
    case 'arrive':
    case 'raise-concern':
    case 'check-rig':
    case 'report-defect':
    case 'take-reading':
    case 'void-reading':
    case 'mix-batch':
    case 'mend-mix-temperature':
    case 'pot-temperature':
    case 'hose-temperature':
    case 'hose-warm':
    case 'pause':
    case 'resume':
    case 'pot-empty':
    case 'line-renewed':
    case 'test-fan':
    case 'start-flush':
    case 'confirm-step':
    case 'skip-step':
    case 'abandon-flush':
    case 'stop-work':
    case 'answer-bell':
    case 'hand-over':
    case 'ring':
    case 'note-undelivered':
      return false;
  }
}

export type Pressed =
  | { readonly kind: 'pin'; readonly why: 'act' | 'fresh' }
  /** The button cannot come from a page of ours that is still good. */
  | { readonly kind: 'old' }
  | { readonly kind: 'no-shift' }
  | { readonly kind: 'answered'; readonly outcome: Outcome };

/** Take one press to the one door, as whoever this browser is. Changes nothing unless it answers `answered`. */
export async function takePress(parts: BoardParts, visit: Visit | null, press: Press): Promise<Pressed> {
  const { services } = parts;
  const { command } = press;
  // Only the loops may ask for these; they decide by the clock and by platforms' answers, not by a press.
  if (command.type === 'ring' || command.type === 'note-undelivered') return { kind: 'old' };

  const person = visit?.person ?? null;
  if (person === null && command.type !== 'stop-work') return { kind: 'pin', why: 'act' };
  if (needsFreshPin(command) && services.clock.now() - (visit?.pinAt ?? 0) > FRESH_WITHIN) {
    return { kind: 'pin', why: 'fresh' };
  }

  const shift = await shiftFor(parts, press);
  if (typeof shift !== 'string') return shift;
  const actor: Actor =
    person === null ? { kind: 'unknown', surface: 'board' } : { kind: 'person', person, surface: 'board' };
  // A stop is never taken for a repeat: an old page brought back by the browser must still stop the work.
  const pressId = command.type === 'stop-work' ? services.newId() : press.commandId;
  const outcome = await services.handle({
    shift,
    command,
    actor,
    commandId: commandIdFor(pressId, actor, command),
  });
  return { kind: 'answered', outcome };
}

/**
 * The shift a press is for: the one its page showed, which must exist. A posted day names its own. A stop always goes
 * to the current shift, however old the page.
 */
async function shiftFor({ services }: BoardParts, { command, shift }: Press): Promise<string | Pressed> {
  if (command.type === 'post-day') return services.shiftIdFor(command.entry.date);
  if (shift !== null && command.type !== 'stop-work') {
    return (await services.store.shift(shift)) === null ? { kind: 'old' } : shift;
  }
  return (await services.currentShift())?.id ?? { kind: 'no-shift' };
}
