import { replay } from '../../src/engine.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { EventBody, EventOf, EventType, JournalEvent } from '../../src/model/event.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Instant } from '../../src/model/time.ts';

/** One line of the journal with the shift before and after it. */
export interface Told<T extends EventType = EventType> {
  readonly line: number;
  readonly at: Instant;
  readonly by: Actor;
  readonly event: JournalEvent;
  readonly body: EventOf<T>;
  readonly before: Shift | null;
  readonly after: Shift;
}

/** The whole shift as its journal tells it. The state alone has forgotten what was put right: cleared tags, old rings. */
export interface Walk {
  readonly lines: readonly Told[];
  readonly end: Shift;
  /** The site's zone, in which every moment is written. */
  readonly zone: string;
}

/** @throws Error that names the line when the journal is empty or cannot be replayed. */
export function walkJournal(id: ShiftId, events: readonly JournalEvent[]): Walk {
  const lines: Told[] = [];
  let state: Shift | null = null;
  for (const event of events) {
    const before: Shift | null = state;
    state = replayed(id, before, event);
    const { seq: line, at, by, body } = event;
    lines.push({ line, at, by, event, body: body as EventBody, before, after: state });
  }
  if (!state) throw new Error(`The journal of shift "${id}" is empty: there is nothing to make a record of.`);
  return { lines, end: state, zone: state.day.site.timeZone };
}

function replayed(id: ShiftId, before: Shift | null, event: JournalEvent): Shift {
  try {
    const after = replay(id, before, [event]);
    if (after) return after;
    throw new Error('nothing came of it');
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Error(`The journal of shift "${id}" cannot be replayed at line ${event.seq}: ${why}`, {
      cause: error,
    });
  }
}

/** The lines of one type or several, in order. */
export function told<T extends EventType>(walk: Walk, ...types: readonly T[]): readonly Told<T>[] {
  return walk.lines.filter(({ body }) =>
    (types as readonly EventType[]).includes(body.type),
  ) as unknown as readonly Told<T>[];
}
