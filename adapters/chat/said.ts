import type { ClaimedDelivery, DeliveryResult } from '../../src/ports.ts';

/**
 * A message to be seen in one place, whatever made it. `id` is unique for ever. `queuedAt`, ms, is missing for what was
 * made on the spot.
 */
export type Said = Pick<
  ClaimedDelivery,
  'id' | 'shift' | 'key' | 'audience' | 'urgency' | 'message' | 'possibleRepeat'
> &
  Partial<Pick<ClaimedDelivery, 'queuedAt'>>;

export type Put = (said: Said) => Promise<DeliveryResult>;
