import { canonicalJson } from '../../src/journal/canonical-json.ts';
import { checkCommit } from '../../src/journal/check-commit.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Instant } from '../../src/model/time.ts';
import { type ChainedEvent, type Commit, type Loaded, type Store, StoreDamaged } from '../../src/ports.ts';
import { link, verifyChain } from '../host/chain.ts';
import { memoryOutbox } from './outbox.ts';

interface Kept {
  /** Text, not objects: nobody outside can change what is kept, and what does not survive JSON fails here too. */
  snapshot: string;
  date: string;
  status: 'open' | 'closed';
  nextBell: Instant | null;
  readonly lines: {
    readonly json: string;
    readonly commandId: string;
    readonly previous: string;
    readonly hash: string;
  }[];
}

/** A store that forgets everything when the process ends: for tests, the tour and one-off commands. */
export function memoryStore(): Store {
  const kept = new Map<ShiftId, Kept>();
  const outbox = memoryOutbox();
  let open = true;
  let deciding = false;

  /** Every method answers later and fails by rejection, as a store on another machine would. */
  async function run<T>(work: () => T): Promise<T> {
    if (!open) throw new Error('This store is closed.');
    return work();
  }

  function headOf(found: Kept | undefined): string | null {
    return found?.lines.at(-1)?.hash ?? null;
  }

  function shiftOf(found: Kept): Shift {
    return JSON.parse(found.snapshot) as Shift;
  }

  function linesOf(found: Kept | undefined): readonly ChainedEvent[] {
    return (found?.lines ?? []).map(({ json, previous, hash }) => ({
      event: JSON.parse(json) as JournalEvent,
      previous,
      hash,
    }));
  }

  function write(id: ShiftId, found: Kept | undefined, commit: Commit): void {
    checkCommit(id, found?.lines.length ?? 0, commit);
    // Everything that can throw comes before the first change: all of a commit or none of it.
    const snapshot = canonicalJson(commit.shift);
    const added = link(id, headOf(found), commit.events).map(({ event, json, previous, hash }) => ({
      json,
      commandId: event.commandId,
      previous,
      hash,
    }));
    const queue = outbox.prepare(commit.deliveries);
    const lines = found?.lines ?? [];
    lines.push(...added);
    const { date, status } = commit.shift;
    kept.set(id, { snapshot, date, status, nextBell: commit.nextBell, lines });
    queue();
  }

  function openBells(): { readonly shift: ShiftId; readonly at: Instant }[] {
    return [...kept]
      .flatMap(([shift, { status, nextBell }]) =>
        status === 'open' && nextBell !== null ? [{ shift, at: nextBell }] : [],
      )
      .sort((a, b) => a.at - b.at || (a.shift < b.shift ? -1 : 1));
  }

  return {
    transact: (id, decide) =>
      run(() => {
        if (deciding) throw new Error('Programming error: a transaction was started inside another one.');
        const found = kept.get(id);
        const loaded: Loaded = {
          shift: found ? shiftOf(found) : null,
          head: headOf(found),
          seen: (commandId) => found?.lines.some((line) => line.commandId === commandId) ?? false,
        };
        deciding = true;
        try {
          const { commit, answer } = decide(loaded);
          if (commit) write(id, found, commit);
          return answer;
        } finally {
          deciding = false;
        }
      }),
    shift: (id) =>
      run(() => {
        const found = kept.get(id);
        return found ? shiftOf(found) : null;
      }),
    shifts: () =>
      run(() =>
        [...kept]
          .map(([id, found]) => ({
            id,
            date: found.date,
            status: found.status,
            head: headOf(found) ?? '',
            nextBell: found.nextBell,
          }))
          .sort((a, b) => (a.date === b.date ? (a.id < b.id ? -1 : 1) : a.date < b.date ? 1 : -1)),
      ),
    journal: (id) => run(() => linesOf(kept.get(id))),
    due: (now) => run(() => openBells().filter(({ at }) => at <= now)),
    earliestBell: () => run(() => openBells()[0]?.at ?? null),
    claim: (now, limit, leaseMs) => run(() => outbox.claim(now, limit, leaseMs)),
    settle: (id, attempt, outcome, now) => run(() => outbox.settle(id, attempt, outcome, now)),
    following: (id) => run(() => outbox.following(id)),
    releaseClaims: () => run(() => outbox.releaseClaims()),
    deliveries: (query) => run(() => outbox.list(query)),
    oldestUnsettled: () => run(() => outbox.oldestUnsettled()),
    repairSnapshot: (id, replay) =>
      run(() => {
        const found = kept.get(id);
        const lines = linesOf(found);
        const check = verifyChain(id, lines);
        if (!found || !check.ok) {
          const why = check.ok ? 'there is none' : `${check.why}, at line ${check.line}`;
          throw new StoreDamaged(`The journal of shift "${id}" cannot rebuild its state: ${why}.`, {
            shift: id,
            what: 'journal',
          });
        }
        const { shift, nextBell } = replay(lines.map(({ event }) => event));
        write(id, found, { shift, nextBell, events: [], deliveries: [] });
      }),
    close: async () => {
      open = false;
    },
  };
}
