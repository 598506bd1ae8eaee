import type { Action } from '../../src/message/action.ts';
import { shiftMark } from './marks.ts';
import type { ChatServices } from './services.ts';
import type { Visit } from './visit.ts';

/** What a press says of itself. */
export interface Pressed {
  /** Null for a button that is not one of ours (old, cut, forged). */
  readonly action: Action | null;
  /** The mark of the shift whose message was pressed in, as `shiftMark` makes it; left out where it carries none. */
  readonly of?: string;
}

/**
 * The visit with the shift that a press is about, or null for a button of a day that is over: it must not act on another
 * day's paint. Two shifts overlap when one works over its time: a press then counts for the one that its message is of.
 */
export async function visitInShift(
  services: Pick<ChatServices, 'openShifts'>,
  { action, of }: Pressed,
  visit: Visit,
): Promise<Visit | null> {
  if (action === null || of === undefined || isForToday(action)) return visit;
  if (of === shiftMark(visit.shift?.id ?? null)) return visit;
  // A form is sent to the current shift, so a form of another one is not opened.
  if (action.kind === 'open') return null;
  const shift = (await services.openShifts()).find(({ id }) => of === shiftMark(id));
  return shift ? { ...visit, shift } : null;
}

/** The work is stopped today, from any message; a page shows today; a day names its own date. */
function isForToday(action: Action): boolean {
  switch (action.kind) {
    case 'do':
      return action.command.type === 'stop-work' || action.command.type === 'post-day';
    case 'open':
      return action.form.id === 'stop-work' || action.form.id === 'post-day';
    case 'show':
      return true;
  }
}
