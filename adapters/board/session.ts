import { randomBytes } from 'node:crypto';
import type { FormRef } from '../../src/message/action.ts';
import type { FormValues } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import type { Command } from '../../src/model/command.ts';
import type { PersonId, ShiftId } from '../../src/model/id.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { Clock } from '../../src/ports.ts';

/** A press that waits for a PIN. It is kept here, so that nothing typed is lost and nothing can be put into a link. */
export type Pending =
  | { readonly kind: 'do'; readonly press: Press }
  | {
      readonly kind: 'form';
      readonly ref: FormRef;
      readonly values: FormValues;
      readonly press: Omit<Press, 'command'>;
    };

/** One press of a button: what, on which shift's page, and where to go afterwards. */
export interface Press {
  readonly command: Command;
  readonly commandId: string;
  /** Null: the page had no shift; the current one is taken. */
  readonly shift: ShiftId | null;
  readonly back: string;
}

/** One browser that pressed something. Named once its PIN was right. */
export interface Visit {
  readonly token: string;
  readonly person: PersonId | null;
  /** When this person's PIN was last typed. */
  readonly pinAt: Instant | null;
}

interface Kept extends Visit {
  seenAt: Instant;
  readonly said: Map<string, Message>;
  readonly pending: Map<string, { readonly what: Pending; readonly at: Instant }>;
}

/** A log-in never outlives its PIN by more: on a busy shared screen others would keep it going all day. */
const LOGGED_IN_AT_MOST = 30 * MINUTE;
const MOST_VISITS = 500;
const MOST_SAID = 5;
const MOST_PENDING = 5;

export type Visits = ReturnType<typeof createVisits>;

/**
 * Log-ins and what browsers wait for, in memory: a restart logs everybody out, and a token is worth nothing after it.
 * `minutes` is how long a visit lasts without `find` touching it; a named one ends half an hour after its PIN anyway.
 */
export function createVisits({ clock, minutes }: { readonly clock: Clock; readonly minutes: number }) {
  const visits = new Map<string, Kept>();

  function live(token: string): Kept | null {
    const visit = visits.get(token);
    if (visit === undefined) return null;
    const now = clock.now();
    const spent = visit.pinAt !== null && now - visit.pinAt >= LOGGED_IN_AT_MOST;
    if (!spent && now - visit.seenAt < minutes * MINUTE) return visit;
    visits.delete(token);
    return null;
  }

  function keep(person: PersonId | null, from: Kept | null): Kept {
    const now = clock.now();
    for (const token of visits.keys()) live(token);
    if (visits.size >= MOST_VISITS) {
      // Nameless visits go first: a flood of them must not log anybody out.
      const oldest = [...visits.values()].sort(
        (a, b) => Number(a.person !== null) - Number(b.person !== null) || a.seenAt - b.seenAt,
      )[0];
      if (oldest !== undefined) visits.delete(oldest.token);
    }
    const visit: Kept = {
      token: randomBytes(32).toString('base64url'),
      person,
      pinAt: person === null ? null : now,
      seenAt: now,
      said: from?.said ?? new Map(),
      pending: from?.pending ?? new Map(),
    };
    visits.set(visit.token, visit);
    return visit;
  }

  const trim = (map: Map<string, unknown>, most: number) => {
    for (const key of map.keys()) if (map.size > most) map.delete(key);
  };

  return {
    /** The visit behind a cookie. `touch` false for what a page asks by itself: a screen left alone must log out. */
    find(token: string | undefined, touch: boolean): Visit | null {
      const visit = token === undefined ? null : live(token);
      if (visit !== null && touch) visit.seenAt = clock.now();
      return visit;
    },
    open: (): Visit => keep(null, null),
    /** A new token at every log-in; what waited goes along, the old token is dead. */
    logIn(from: Visit | null, person: PersonId): Visit {
      const before = from === null ? null : live(from.token);
      if (before !== null) visits.delete(before.token);
      return keep(person, before);
    },
    logOut(visit: Visit): void {
      visits.delete(visit.token);
    },
    /** Something to show on this browser's next page. `keepFirst`: not over an answer to the same press. */
    say(visit: Visit, key: string, message: Message, { keepFirst }: { readonly keepFirst: boolean }): void {
      const said = live(visit.token)?.said;
      if (said === undefined || (keepFirst && said.has(key))) return;
      said.set(key, message);
      trim(said, MOST_SAID);
    },
    takeSaid(visit: Visit | null): readonly Message[] {
      const said = visit === null ? undefined : live(visit.token)?.said;
      const messages = [...(said?.values() ?? [])];
      said?.clear();
      return messages;
    },
    /** Keep a press until the PIN is typed; gives the id for the log-in page's address. */
    wait(visit: Visit, what: Pending): string {
      const id = randomBytes(12).toString('base64url');
      const pending = live(visit.token)?.pending;
      pending?.set(id, { what, at: clock.now() });
      if (pending !== undefined) trim(pending, MOST_PENDING);
      return id;
    },
    waiting(visit: Visit | null, id: string | undefined): Pending | null {
      const pending = visit === null || id === undefined ? undefined : live(visit.token)?.pending.get(id);
      return pending?.what ?? null;
    },
    takeWaiting(visit: Visit, id: string | undefined): Pending | null {
      const pending = live(visit.token)?.pending;
      const found = id === undefined ? undefined : pending?.get(id);
      if (id !== undefined) pending?.delete(id);
      return found === undefined || clock.now() - found.at > minutes * MINUTE ? null : found.what;
    },
  };
}
