import { canonicalJson } from '../../src/journal/canonical-json.ts';
import type { Instant } from '../../src/model/time.ts';
import {
  type ClaimedDelivery,
  type Delivery,
  isSameMessage,
  type Placed,
  type SettleOutcome,
  type Store,
  type StoredDelivery,
} from '../../src/ports.ts';

interface Entry {
  readonly id: string;
  readonly json: string;
  readonly bell: boolean;
  readonly queuedAt: Instant;
  /** To be found by, without reading its message. */
  readonly place: Placed;
  state: StoredDelivery['state'];
  attempts: number;
  /** Null: nothing to wait for. A new delivery must not wait out a clock that was set back. */
  notBefore: Instant | null;
  leaseUntil: Instant;
  possibleRepeat: boolean;
  settledAt: Instant | null;
  lastError: string | null;
}

type Query = Parameters<Store['deliveries']>[0];

/** The outbox of the memory store. Times are arguments; entries keep text so that nobody shares an object with it. */
export function memoryOutbox() {
  const entries = new Map<string, Entry>();

  function canBeTaken(entry: Entry, now: Instant): boolean {
    if (entry.state === 'queued') return entry.notBefore === null || entry.notBefore <= now;
    return entry.state === 'sending' && entry.leaseUntil <= now;
  }

  function take(entry: Entry, leaseUntil: Instant): ClaimedDelivery {
    if (entry.state === 'sending') entry.possibleRepeat = true;
    entry.state = 'sending';
    entry.attempts += 1;
    entry.leaseUntil = leaseUntil;
    const delivery = JSON.parse(entry.json) as Delivery;
    return { ...delivery, attempt: entry.attempts, possibleRepeat: entry.possibleRepeat };
  }

  function settled(entry: Entry): boolean {
    return entry.state === 'sent' || entry.state === 'failed' || entry.state === 'superseded';
  }

  function stored({ json, state, attempts, settledAt, lastError }: Entry): StoredDelivery {
    return { ...(JSON.parse(json) as Delivery), state, attempts, settledAt, lastError };
  }

  return {
    /** Does all that can fail and returns what puts the deliveries in the queue; an id already there is left alone. */
    prepare(deliveries: readonly Delivery[]): () => void {
      const fresh = deliveries.map((delivery) => {
        const { shift, surface, key, audience } = delivery;
        const place: Placed = { shift, surface, key, audience: { ...audience } };
        return { delivery, place, json: canonicalJson(delivery) };
      });
      return () => {
        for (const { delivery, place, json } of fresh) {
          const { id, urgency, queuedAt } = delivery;
          if (entries.has(id)) continue;
          entries.set(id, {
            id,
            json,
            bell: urgency === 'bell',
            queuedAt,
            place,
            state: 'queued',
            attempts: 0,
            notBefore: null,
            leaseUntil: 0,
            possibleRepeat: false,
            settledAt: null,
            lastError: null,
          });
        }
      };
    },

    claim(now: Instant, limit: number, leaseMs: number): readonly ClaimedDelivery[] {
      const ready = [...entries.values()].filter((entry) => canBeTaken(entry, now));
      const inOrder = [...ready.filter(({ bell }) => bell), ...ready.filter(({ bell }) => !bell)];
      return inOrder.slice(0, limit).map((entry) => take(entry, now + leaseMs));
    },

    settle(id: string, attempt: number, outcome: SettleOutcome, now: Instant): boolean {
      const entry = entries.get(id);
      if (entry?.state !== 'sending' || entry.attempts !== attempt) return false;
      switch (outcome.kind) {
        case 'sent':
        case 'superseded':
          entry.state = outcome.kind;
          entry.settledAt = now;
          return true;
        case 'retry':
          entry.state = 'queued';
          entry.notBefore = outcome.at;
          entry.lastError = outcome.why;
          if (outcome.ambiguous) entry.possibleRepeat = true;
          return true;
        case 'later':
          entry.state = 'queued';
          entry.attempts -= 1;
          entry.notBefore = outcome.at;
          return true;
        case 'failed':
          entry.state = 'failed';
          entry.settledAt = now;
          entry.lastError = outcome.why;
          return true;
      }
    },

    following(id: string): StoredDelivery | null {
      const entry = entries.get(id);
      if (entry === undefined) return null;
      const all = [...entries.values()];
      const later = all.slice(all.indexOf(entry) + 1);
      const next = later.find(({ place }) => isSameMessage(entry.place, place));
      return next === undefined ? null : stored(next);
    },

    releaseClaims(): number {
      const inFlight = [...entries.values()].filter(({ state }) => state === 'sending');
      for (const entry of inFlight) {
        entry.state = 'queued';
        entry.notBefore = null;
        entry.possibleRepeat = true;
      }
      return inFlight.length;
    },

    list({ shift, surface, state, limit }: Query): readonly StoredDelivery[] {
      return [...entries.values()]
        .reverse()
        .filter(({ place }) => shift === undefined || place.shift === shift)
        .filter(({ place }) => surface === undefined || place.surface === surface)
        .filter((entry) => state === undefined || entry.state === state)
        .slice(0, limit)
        .map(stored);
    },

    oldestUnsettled(): Instant | null {
      const times = [...entries.values()].filter((entry) => !settled(entry)).map(({ queuedAt }) => queuedAt);
      return times.length === 0 ? null : Math.min(...times);
    },
  };
}
