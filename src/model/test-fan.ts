import type { PersonId } from './id.ts';
import type { Instant } from './time.ts';

/** The fan a tip sprayed on a scrap panel, measured across. */
export interface TestFan {
  readonly at: Instant;
  readonly by: PersonId;
  /** The code as it stands on the tip. */
  readonly tip: string;
  readonly widthMm: number;
}
