/**
 * Where a check value comes from.
 * `read`: printed in the source named, which was read. `memory`: the source named, from memory. `practice`: common
 * practice, no source. `definition`: worked out by hand from the definition named. `library`: a reference library.
 */
export type Mark = 'read' | 'memory' | 'practice' | 'definition' | 'library';

/** What every row of a published check carries beside its numbers. */
export interface Sourced {
  readonly source: string;
  readonly mark: Mark;
}
