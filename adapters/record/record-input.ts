import type { Shift } from '../../src/model/shift.ts';
import type { Instant } from '../../src/model/time.ts';
import type { ChainedEvent, StoredDelivery } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';

/** What a shift record is made from. */
export interface RecordInput {
  /** Names the shift. Everything the record says is worked out from the journal, which may be a line newer. */
  readonly shift: Shift;
  /** All of it, from its first line. */
  readonly journal: readonly ChainedEvent[];
  /** All of the shift's deliveries, in any order. */
  readonly deliveries: readonly StoredDelivery[];
  readonly textsFor: TextsFor;
  readonly madeAt: Instant;
}
