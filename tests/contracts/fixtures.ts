import { completeDay } from '../../src/journal/older.ts';
import type { Day } from '../../src/model/day.ts';
import type { EventBody, JournalEvent } from '../../src/model/event.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Commit, Delivery, Store } from '../../src/ports.ts';

/** 2026-03-09 06:00 UTC. */
export const T0 = 1_773_036_000_000;
export const MIN = 60_000;

/** As much of a shift as a store looks at, and some text that a store must give back unchanged. */
export function aShift(
  id: string,
  seq: number,
  more: Partial<Shift> & { readonly note?: string } = {},
): Shift {
  const day = completeDay({ entry: {}, site: {}, policy: {}, rigs: {} } as unknown as Day);
  const state = { id, date: '2026-03-09', status: 'open', seq, note: '', day, carriedIn: null, readings: [] };
  const briefing = { revision: 1, cautions: [], mustSign: [], changed: [], fresh: [] };
  return { ...state, briefing, ...more } as unknown as Shift;
}

export function anEvent(
  seq: number,
  commandId = `command-${seq}`,
  text = `line ${seq}, 225 bar`,
): JournalEvent {
  return {
    seq,
    at: T0 + seq * MIN,
    by: { kind: 'person', person: 'ana', surface: 'board' },
    commandId,
    body: { type: 'work-stopped', text } satisfies EventBody,
  };
}

export function aDelivery(shift: string, name: string, more: Partial<Delivery> = {}): Delivery {
  return {
    id: `${shift}:${name}`,
    shift,
    key: `stop:${shift}`,
    audience: { kind: 'crew' },
    urgency: 'quiet',
    surface: 'board',
    queuedAt: T0,
    message: { summary: `Stop work: ${name}`, tone: 'danger', blocks: [{ kind: 'divider' }] },
    ...more,
  };
}

/** A commit of lines `from` to `to`. */
export function aCommit(id: string, from: number, to: number, more: Partial<Commit> = {}): Commit {
  const events = Array.from({ length: to - from + 1 }, (_, index) => anEvent(from + index));
  return { events, shift: aShift(id, to), deliveries: [], nextBell: null, ...more };
}

export async function put(store: Store, commit: Commit): Promise<void> {
  await store.transact(commit.shift.id, () => ({ commit, answer: null }));
}

/** A shift with one journal line, its next bell and its deliveries. */
export async function start(store: Store, id: string, more: Partial<Commit> = {}): Promise<void> {
  await put(store, aCommit(id, 1, 1, more));
}
