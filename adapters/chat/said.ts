import type { ClaimedDelivery, DeliveryResult } from '../../src/ports.ts';

/** A message to be seen in one place, whatever made it. `id` is unique for ever. */
export type Said = Pick<
  ClaimedDelivery,
  'id' | 'shift' | 'key' | 'audience' | 'urgency' | 'message' | 'possibleRepeat'
>;

export type Put = (said: Said) => Promise<DeliveryResult>;
