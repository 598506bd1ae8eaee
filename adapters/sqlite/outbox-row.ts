import { canonicalJson } from '../../src/journal/canonical-json.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Instant } from '../../src/model/time.ts';
import type { Delivery, SettleOutcome, StoredDelivery } from '../../src/ports.ts';
import { sha256 } from '../host/chain.ts';

/** What a delivery is; never changes. `body` is the whole of it as text, the columns are for finding it. */
interface Fixed {
  readonly id: string;
  readonly shift: ShiftId;
  readonly surface: string;
  readonly urgency: Delivery['urgency'];
  readonly queued_at: Instant;
  readonly body_sha: string;
}

/** Where a delivery stands. */
export interface Standing {
  readonly state: StoredDelivery['state'];
  readonly attempt: number;
  /** Null: nothing to wait for. A new delivery must not wait out a clock that was set back. */
  readonly not_before: Instant | null;
  readonly lease_until: Instant | null;
  readonly possible_repeat: 0 | 1;
  readonly settled_at: Instant | null;
  readonly last_error: string | null;
}

export interface OutboxRow extends Fixed, Standing {
  /** Order of queueing. */
  readonly place: number;
  readonly row_sha: string;
}

/** Covers the standing too: one flipped bit in `not_before` could hold a bell back for years. */
export function rowSha(row: Fixed & Standing): string {
  const { id, shift, surface, urgency, queued_at, body_sha } = row;
  const { state, attempt, not_before, lease_until, possible_repeat, settled_at, last_error } = row;
  return sha256(
    JSON.stringify([
      [id, shift, surface, urgency, queued_at, body_sha],
      [state, attempt, not_before, lease_until, possible_repeat, settled_at, last_error],
    ]),
  );
}

export function queuedRow(delivery: Delivery): Omit<OutboxRow, 'place'> & { readonly body: string } {
  const { id, shift, surface, urgency, queuedAt } = delivery;
  const body = canonicalJson(delivery);
  const row: Fixed & Standing = {
    id,
    shift,
    surface,
    urgency,
    queued_at: queuedAt,
    body_sha: sha256(body),
    state: 'queued',
    attempt: 0,
    not_before: null,
    lease_until: null,
    possible_repeat: 0,
    settled_at: null,
    last_error: null,
  };
  return { ...row, row_sha: rowSha(row), body };
}

export function canBeTaken(row: Standing, now: Instant): boolean {
  if (row.state === 'queued') return row.not_before === null || row.not_before <= now;
  return row.state === 'sending' && (row.lease_until === null || row.lease_until <= now);
}

export function taken(row: Standing, leaseUntil: Instant): Standing {
  return {
    state: 'sending',
    attempt: row.attempt + 1,
    not_before: null,
    lease_until: leaseUntil,
    // Still "sending": the try before this one never said how it ended.
    possible_repeat: row.state === 'sending' ? 1 : row.possible_repeat,
    settled_at: null,
    last_error: row.last_error,
  };
}

export function settled(row: Standing, outcome: SettleOutcome, now: Instant): Standing {
  const standing: Standing = {
    state: 'queued',
    attempt: row.attempt,
    not_before: null,
    lease_until: null,
    possible_repeat: row.possible_repeat,
    settled_at: null,
    last_error: row.last_error,
  };
  switch (outcome.kind) {
    case 'sent':
    case 'superseded':
      return { ...standing, state: outcome.kind, settled_at: now };
    case 'failed':
      return { ...standing, state: 'failed', settled_at: now, last_error: asStored(outcome.why) };
    case 'later':
      return { ...standing, attempt: row.attempt - 1, not_before: outcome.at };
    case 'retry':
      return {
        ...standing,
        not_before: outcome.at,
        last_error: asStored(outcome.why),
        possible_repeat: outcome.ambiguous ? 1 : row.possible_repeat,
      };
  }
}

export function released(row: Standing): Standing {
  return { ...row, state: 'queued', not_before: null, lease_until: null, possible_repeat: 1 };
}

/** As it comes back from UTF-8, or its checksum would call an error text cut inside an emoji damaged. */
function asStored(why: string): string {
  return Buffer.from(why, 'utf8').toString('utf8');
}
