import { z } from 'zod';
import { plainText } from '../../src/message/plain-text.ts';
import type { StoredDelivery } from '../../src/ports.ts';
import { maybeStamp, stamp, stampSchema } from './stamp.ts';
import { namedSchema, personNamed } from './summary/shapes.ts';
import type { Walk } from './walk.ts';

/**
 * What people were actually shown: each message on each surface, in the words it went out with. A message that was sent
 * more than once may have carried a line more, saying so.
 */
export const shownSchema = z.strictObject({
  id: z.string(),
  /** The journal line it was said for. */
  line: z.int().positive().nullable(),
  /** Null: the whole crew. */
  person: namedSchema.nullable(),
  surface: z.string(),
  urgency: z.enum(['quiet', 'bell']),
  /** Messages of one key replace each other where the surface can do so. */
  key: z.string(),
  queuedAt: stampSchema,
  /** `superseded`: newer words of the same message were said instead. */
  state: z.enum(['queued', 'sending', 'sent', 'failed', 'superseded']),
  /** When it was shown, given up or superseded. */
  settledAt: stampSchema.nullable(),
  attempts: z.int().min(0),
  error: z.string().nullable(),
  text: z.string(),
});
export type Shown = z.infer<typeof shownSchema>;

/** Oldest first. Messages for lines after the end of the journal are of a later moment than the record: left out. */
export function shownOf(walk: Walk, deliveries: readonly StoredDelivery[]): Shown[] {
  return deliveries
    .map((delivery) => ({ delivery, place: placeOf(walk.end.id, delivery.id) }))
    .filter(({ place }) => place === null || place.line <= walk.end.seq)
    .sort((x, y) => byPlace(x.place, y.place) || (x.delivery.id < y.delivery.id ? -1 : 1))
    .map(({ delivery, place }) => ({
      id: delivery.id,
      line: place?.line ?? null,
      person: delivery.audience.kind === 'crew' ? null : personNamed(walk.end, delivery.audience.person),
      surface: delivery.surface,
      urgency: delivery.urgency,
      key: delivery.key,
      queuedAt: stamp(delivery.queuedAt, walk.zone),
      state: delivery.state,
      settledAt: maybeStamp(delivery.settledAt, walk.zone),
      attempts: delivery.attempts,
      error: delivery.lastError,
      text: plainText(delivery.message),
    }));
}

interface Place {
  readonly line: number;
  readonly index: number;
}

/** A delivery's id is made from its cause: `shift:line:index:surface`. */
function placeOf(shift: string, id: string): Place | null {
  if (!id.startsWith(`${shift}:`)) return null;
  const [line = '', index = ''] = id.slice(shift.length + 1).split(':');
  const place = { line: Number(line), index: Number(index) };
  return Number.isInteger(place.line) && place.line > 0 && Number.isInteger(place.index) ? place : null;
}

/** Without a known place: behind all others. */
function byPlace(x: Place | null, y: Place | null): number {
  if (!x || !y) return Number(x === null) - Number(y === null);
  return x.line - y.line || x.index - y.index;
}
