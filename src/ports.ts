import type { Message } from './message/message.ts';
import type { Actor } from './model/actor.ts';
import type { Command } from './model/command.ts';
import type { EventBody, JournalEvent } from './model/event.ts';
import type { PersonId, ShiftId } from './model/id.ts';
import type { Shift } from './model/shift.ts';
import type { Instant } from './model/time.ts';

/** What the world must provide. All asynchronous, so that a database on another machine fits as well. */

// ---- time -----------------------------------------------------------------------------------------------------------

export interface Clock {
  /** Epoch ms. Never goes back while the process lives: a bell must not wait out a clock set back. */
  now(): Instant;
}

// ---- the store ------------------------------------------------------------------------------------------------------

/** Who a message is for. `crew` is everybody on the shift, on shared screens and channels as well. */
export type Audience = { readonly kind: 'crew' } | { readonly kind: 'person'; readonly person: PersonId };

/** A message the core wants said, before it is known where. */
export interface Outgoing {
  /** Same key = same message on a surface that can update in place, e.g. "briefing:demo:2026-03-09". */
  readonly key: string;
  readonly audience: Audience;
  /** A bell makes noise where the surface can. */
  readonly urgency: 'quiet' | 'bell';
  readonly message: Message;
}

/** One delivery to make: an outgoing message on one surface. */
export interface Delivery extends Outgoing {
  /** Made from its cause (`shift:seq:index:surface`), unique for ever: a repeated event cannot queue it twice. */
  readonly id: string;
  readonly shift: ShiftId;
  readonly surface: string;
  readonly queuedAt: Instant;
}

/** What a message in one place is told by. */
export type Placed = Pick<Delivery, 'shift' | 'surface' | 'key' | 'audience'>;

/** Whether two deliveries are words of one message in one place. */
export function isSameMessage(a: Placed, b: Placed): boolean {
  const person = ({ audience }: Placed) => (audience.kind === 'person' ? audience.person : null);
  return a.shift === b.shift && a.surface === b.surface && a.key === b.key && person(a) === person(b);
}

export interface ClaimedDelivery extends Delivery {
  /** 1 for the first try. */
  readonly attempt: number;
  /** True when an earlier try ended without an answer (crash, timeout): it may already have been shown. */
  readonly possibleRepeat: boolean;
}

export interface StoredDelivery extends Delivery {
  /** `superseded`: not said any more, because newer words of the same message stood or were to be said. */
  readonly state: 'queued' | 'sending' | 'sent' | 'failed' | 'superseded';
  readonly attempts: number;
  readonly settledAt: Instant | null;
  readonly lastError: string | null;
}

/** What the store found for a shift, inside its transaction. */
export interface Loaded {
  readonly shift: Shift | null;
  /** Hash of the shift's last journal line, null when there is none. */
  readonly head: string | null;
  /** True when a journal line of this shift was caused by this command already. */
  seen(commandId: string): boolean;
}

/** What to write, all of it or none. */
export interface Commit {
  readonly events: readonly JournalEvent[];
  readonly shift: Shift;
  readonly deliveries: readonly Delivery[];
  /** When the shift next wants to ring; null when nothing is wanted. */
  readonly nextBell: Instant | null;
}

export interface ShiftSummary {
  readonly id: ShiftId;
  readonly date: string;
  readonly status: 'open' | 'closed';
  readonly head: string;
  readonly nextBell: Instant | null;
}

/** A journal line as stored, with its place in the chain. */
export interface ChainedEvent {
  readonly event: JournalEvent;
  /** Hash of the line before; the shift's first line has the hash of the shift id alone. */
  readonly previous: string;
  /** SHA-256, hex, over previous + canonical JSON of the event. */
  readonly hash: string;
}

export interface Store {
  /**
   * Load, decide and write in one transaction; `decide` is pure and synchronous, and may be run once only.
   * Resolves after the write is durable. Throws `StoreDamaged` when the shift's rows fail their checksums.
   */
  transact<T>(
    shift: ShiftId,
    decide: (loaded: Loaded) => { readonly commit: Commit | null; readonly answer: T },
  ): Promise<T>;
  shift(id: ShiftId): Promise<Shift | null>;
  /** Newest date first. */
  shifts(): Promise<readonly ShiftSummary[]>;
  journal(id: ShiftId): Promise<readonly ChainedEvent[]>;
  /** The open shifts whose next bell is at or before `now`, earliest first. */
  due(now: Instant): Promise<readonly { readonly shift: ShiftId; readonly at: Instant }[]>;
  /** The earliest next bell of all open shifts. */
  earliestBell(): Promise<Instant | null>;
  /**
   * Take up to `limit` deliveries whose time has come and hold them until `now + leaseMs`. One whose lease ran out
   * without being settled is taken again as a possible repeat. Oldest first; bells before quiet ones.
   */
  claim(now: Instant, limit: number, leaseMs: number): Promise<readonly ClaimedDelivery[]>;
  /** Guarded by the attempt number: a late answer from an older try changes nothing and returns false. */
  settle(id: string, attempt: number, outcome: SettleOutcome, now: Instant): Promise<boolean>;
  /**
   * The next one queued after it with its shift, surface, audience and key, whatever became of that; null when there is
   * none. One that is damaged is passed over: it may never be said.
   */
  following(id: string): Promise<StoredDelivery | null>;
  /** At start of a process that owns the store alone: what was being sent when it died may be taken again at once. */
  releaseClaims(): Promise<number>;
  /** Newest first. */
  deliveries(query: {
    readonly shift?: ShiftId;
    readonly surface?: string;
    readonly state?: StoredDelivery['state'];
    readonly limit: number;
  }): Promise<readonly StoredDelivery[]>;
  /** Age of the oldest delivery not yet settled, by queue time; null when there is none. */
  oldestUnsettled(): Promise<Instant | null>;
  /**
   * Write a shift's state anew from its journal, after `StoreDamaged` with `what: 'snapshot'`. Verifies the chain first
   * and throws `StoreDamaged` with `what: 'journal'` when it does not hold.
   */
  repairSnapshot(
    id: ShiftId,
    replay: (events: readonly JournalEvent[]) => { readonly shift: Shift; readonly nextBell: Instant | null },
  ): Promise<void>;
  close(): Promise<void>;
}

export type SettleOutcome =
  | { readonly kind: 'sent' }
  | { readonly kind: 'superseded' }
  /** `ambiguous`: no clear answer came (a throw, a timeout), so the next try is a possible repeat. */
  | { readonly kind: 'retry'; readonly at: Instant; readonly why: string; readonly ambiguous?: boolean }
  /**
   * No try was made, so the one that was claimed does not count. Still a possible repeat when the claim was one: an
   * earlier try that never answered may have been shown.
   */
  | { readonly kind: 'later'; readonly at: Instant }
  | { readonly kind: 'failed'; readonly why: string };

/** The stored rows are not what was written. Says which and what can be done. */
export class StoreDamaged extends Error {
  override readonly name = 'StoreDamaged';
  /** Null when it is not one shift but the whole file. */
  readonly shift: ShiftId | null;
  /** `snapshot` (a shift's state or its next bell) can be mended by `repairSnapshot`; the others need a copy. */
  readonly what: 'file' | 'snapshot' | 'journal' | 'outbox';

  constructor(message: string, at: Pick<StoreDamaged, 'shift' | 'what'>, options?: ErrorOptions) {
    super(message, options);
    this.shift = at.shift;
    this.what = at.what;
  }
}

// ---- surfaces -------------------------------------------------------------------------------------------------------

export type DeliveryResult =
  | { readonly kind: 'sent' }
  /** Nothing was sent: newer words of the same message stand, or are to be said in its place. */
  | { readonly kind: 'superseded' }
  /** Not now; `afterMs` when the platform named a wait. */
  | { readonly kind: 'retry'; readonly why: string; readonly afterMs?: number }
  /** It is not this surface's turn yet and nothing was sent: asked again after `afterMs`, as often as it takes. */
  | { readonly kind: 'later'; readonly afterMs: number }
  /** Never: gone, forbidden, too large. A dead letter is shown to the foreman. */
  | { readonly kind: 'failed'; readonly why: string };

/** Somewhere people are. */
export interface Surface {
  readonly name: string;
  /** It says of a possible repeat itself that it is one, where that is true of it: an edit in place repeats nothing. */
  readonly marksRepeats?: true;
  reaches(audience: Audience, shift: Shift): boolean;
  /** Must settle within its own time limit; a throw counts as `retry` with a possible repeat. */
  deliver(delivery: ClaimedDelivery): Promise<DeliveryResult>;
}

// ---- the one door ---------------------------------------------------------------------------------------------------

export interface Request {
  readonly shift: ShiftId;
  readonly command: Command;
  readonly actor: Actor;
  /** Unique per press; the same id twice changes nothing the second time. */
  readonly commandId: string;
}

export type Outcome =
  | {
      readonly ok: true;
      readonly shift: Shift;
      readonly events: readonly EventBody[];
      readonly repeated: boolean;
      readonly shown: Message;
    }
  | { readonly ok: false; readonly shown: Message };

export type HandleCommand = (request: Request) => Promise<Outcome>;

export {
  checkRemembered,
  longestRemembered,
  type Remembered,
  type SurfaceMemory,
  SurfaceMemoryDamaged,
} from './surface-memory.ts';
