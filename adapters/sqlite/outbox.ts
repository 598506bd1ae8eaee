import type Database from 'better-sqlite3';
import type { Instant } from '../../src/model/time.ts';
import {
  type ClaimedDelivery,
  type Delivery,
  isSameMessage,
  type SettleOutcome,
  type Store,
  type StoredDelivery,
} from '../../src/ports.ts';
import { sha256 } from '../host/chain.ts';
import { damagedDelivery } from './errors.ts';
import {
  canBeTaken,
  type OutboxRow,
  queuedRow,
  released,
  rowSha,
  type Standing,
  settled,
  taken,
} from './outbox-row.ts';

type Query = Parameters<Store['deliveries']>[0];

const columns = `place, id, shift, surface, urgency, queued_at, state, attempt, not_before, lease_until,
  possible_repeat, settled_at, last_error, body_sha, row_sha`;

export function outboxTable(db: Database.Database, file: string) {
  // A delivery's id is made from its cause: the same cause cannot queue it twice.
  const insert = db.prepare<Omit<OutboxRow, 'place'> & { readonly body: string }>(`
    INSERT INTO outbox (id, shift, surface, urgency, queued_at, state, attempt, not_before, lease_until,
      possible_repeat, settled_at, last_error, body_sha, row_sha, body)
    VALUES (@id, @shift, @surface, @urgency, @queued_at, @state, @attempt, @not_before, @lease_until,
      @possible_repeat, @settled_at, @last_error, @body_sha, @row_sha, @body)
    ON CONFLICT (id) DO NOTHING`);
  // "bell" sorts before "quiet". Times are compared here and not in SQL, where a damaged one would only stay away.
  const unsettled = db.prepare<[], OutboxRow>(
    // In the words of its index, and what the index does not know yet.
    `SELECT ${columns} FROM outbox WHERE state NOT IN ('sent', 'failed') AND state <> 'superseded'
     ORDER BY urgency, place`,
  );
  const byId = db.prepare<[string], OutboxRow>(`SELECT ${columns} FROM outbox WHERE id = ?`);
  const after = db.prepare<[string, string, number], OutboxRow>(
    `SELECT ${columns} FROM outbox WHERE shift = ? AND surface = ? AND place > ? ORDER BY place`,
  );
  const bodyAt = db.prepare<[number], string>('SELECT body FROM outbox WHERE place = ?').pluck();
  const move = db.prepare<
    Standing & Record<'place' | 'from_attempt', number> & Record<'from_state' | 'row_sha', string>
  >(`
    UPDATE outbox SET state = @state, attempt = @attempt, not_before = @not_before, lease_until = @lease_until,
      possible_repeat = @possible_repeat, settled_at = @settled_at, last_error = @last_error, row_sha = @row_sha
    WHERE place = @place AND state = @from_state AND attempt = @from_attempt`);
  const lists = new Map<string, Database.Statement<unknown[], OutboxRow>>();

  function isSound(row: OutboxRow): boolean {
    return rowSha(row) === row.row_sha;
  }

  /** Change where a delivery stands, unless somebody else has done so since the row was read. */
  function change(row: OutboxRow, to: Standing): boolean {
    const { place, state: from_state, attempt: from_attempt } = row;
    return (
      move.run({ ...to, place, from_state, from_attempt, row_sha: rowSha({ ...row, ...to }) }).changes === 1
    );
  }

  /** Null when the text is not what was queued. */
  function deliveryOf(row: OutboxRow): Delivery | null {
    const body = bodyAt.get(row.place);
    return body !== undefined && sha256(body) === row.body_sha ? (JSON.parse(body) as Delivery) : null;
  }

  function stored(row: OutboxRow): StoredDelivery | null {
    const delivery = isSound(row) ? deliveryOf(row) : null;
    const { state, attempt: attempts, settled_at: settledAt, last_error: lastError } = row;
    return delivery && { ...delivery, state, attempts, settledAt, lastError };
  }

  function listing(query: Query): Database.Statement<unknown[], OutboxRow> {
    const filters = (['shift', 'surface', 'state'] as const).filter((name) => query[name] !== undefined);
    const key = filters.join();
    const found = lists.get(key);
    if (found) return found;
    const where =
      filters.length === 0 ? '' : `WHERE ${filters.map((name) => `${name} = @${name}`).join(' AND ')}`;
    const made = db.prepare<unknown[], OutboxRow>(
      `SELECT ${columns} FROM outbox ${where} ORDER BY place DESC LIMIT @limit`,
    );
    lists.set(key, made);
    return made;
  }

  return {
    add(deliveries: readonly Delivery[]): void {
      for (const delivery of deliveries) insert.run(queuedRow(delivery));
    },

    /**
     * Call inside a transaction. A damaged delivery holds nobody up: it is passed over as long as there is a sound one
     * to take, and thrown as `StoreDamaged` when there is none.
     */
    claim(now: Instant, limit: number, leaseMs: number): readonly ClaimedDelivery[] {
      const ready: { readonly row: OutboxRow; readonly delivery: Delivery }[] = [];
      let damaged: OutboxRow | null = null;
      for (const row of unsettled.iterate()) {
        if (ready.length >= limit) break;
        const sound = isSound(row);
        if (sound && !canBeTaken(row, now)) continue;
        const delivery = sound ? deliveryOf(row) : null;
        if (delivery) ready.push({ row, delivery });
        else damaged ??= row;
      }
      if (damaged && ready.length === 0 && limit > 0) throw damagedDelivery(file, damaged.shift, damaged.id);
      return ready.map(({ row, delivery }) => {
        const to = taken(row, now + leaseMs);
        change(row, to);
        return { ...delivery, attempt: to.attempt, possibleRepeat: to.possible_repeat === 1 };
      });
    },

    settle(id: string, attempt: number, outcome: SettleOutcome, now: Instant): boolean {
      const row = byId.get(id);
      if (!row) return false;
      if (!isSound(row)) throw damagedDelivery(file, row.shift, row.id);
      if (row.state !== 'sending' || row.attempt !== attempt) return false;
      return change(row, settled(row, outcome, now));
    },

    following(id: string): StoredDelivery | null {
      const row = byId.get(id);
      if (!row) return null;
      const one = stored(row);
      if (!one) throw damagedDelivery(file, row.shift, row.id);
      for (const later of after.iterate(row.shift, row.surface, row.place)) {
        const other = stored(later);
        if (other && isSameMessage(one, other)) return other;
      }
      return null;
    },

    /** Call inside a transaction. */
    releaseClaims(): number {
      const inFlight = unsettled.all().filter((row) => isSound(row) && row.state === 'sending');
      return inFlight.filter((row) => change(row, released(row))).length;
    },

    list(query: Query): readonly StoredDelivery[] {
      return listing(query)
        .all(query)
        .map((row) => {
          const delivery = stored(row);
          if (!delivery) throw damagedDelivery(file, row.shift, row.id);
          return delivery;
        });
    },

    /** Looks at every unsettled row, so a regular call also finds a damaged one that waits far ahead. */
    oldestUnsettled(): Instant | null {
      let oldest: Instant | null = null;
      for (const row of unsettled.iterate()) {
        if (!isSound(row)) throw damagedDelivery(file, row.shift, row.id);
        if (oldest === null || row.queued_at < oldest) oldest = row.queued_at;
      }
      return oldest;
    },
  };
}
