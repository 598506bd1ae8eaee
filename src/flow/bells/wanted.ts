import type { PersonId, RigId } from '../../model/id.ts';
import type { BellLevel } from '../../model/shift.ts';
import type { Instant } from '../../model/time.ts';

export const bellKinds = [
  'unsigned',
  'concern',
  'stop-work',
  'reading-due',
  'margin-closing',
  'induction-over',
  'fan-due',
  'before-break',
  'before-end',
  'use-by-soon',
  'use-by',
  'start-flush',
  'dead',
  'flush-stalled',
  'recoat-open',
  'recoat-closing',
  'shift-end',
] as const;
export type BellKind = (typeof bellKinds)[number];

/** A bell that should ring, as computed from the shift: nothing sets it and nothing has to cancel it. */
export interface WantedBell {
  readonly key: string;
  readonly kind: BellKind;
  readonly dueAt: Instant;
  readonly rig: RigId | null;
  readonly person: PersonId | null;
  /** Whom the first ring is for. `once` bells inform and do not escalate. */
  readonly first: BellLevel;
  readonly once: boolean;
  /** When the news came that makes it due; due times before it are due from then, and not late. */
  readonly knownAt: Instant;
  /** From then on a louder bell of the same clock speaks; this one rings no more. */
  readonly until: Instant | null;
  /** BE9: keys of bells of the same rig that this one says as well. */
  readonly also: readonly string[];
}

/** A wanted bell with its usual settings: for the crew, escalating, with no end. */
export function bell(
  kind: BellKind,
  key: string,
  dueAt: Instant,
  more: Partial<Omit<WantedBell, 'key' | 'kind' | 'dueAt'>> = {},
): WantedBell {
  return {
    key: `${kind}:${key}`,
    kind,
    // Whole milliseconds, rounded to the early side.
    dueAt: Math.floor(dueAt),
    rig: null,
    person: null,
    first: 'crew',
    once: false,
    until: null,
    also: [],
    knownAt: Math.floor(dueAt),
    ...more,
  };
}
