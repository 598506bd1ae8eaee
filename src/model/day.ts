import type { Actor } from './actor.ts';
import type { CoatingSheet } from './coating-sheet.ts';
import type { DayEntry } from './day-entry.ts';
import type { CoatingId, PersonId, RigId } from './id.ts';
import type { Rig } from './rig.ts';
import type { TagCause } from './shift.ts';
import type { Emergency, Person, Policy, Site } from './site.ts';
import type { SiteCautions } from './site-cautions.ts';
import type { Instant } from './time.ts';

/**
 * A day entry with everything it refers to, as it stood when it was posted. The shift decides from this copy, so an
 * edited site pack cannot change what a running shift was briefed on, and the journal replays to the same state.
 */
export interface Day {
  readonly entry: DayEntry;
  readonly site: Pick<Site, 'id' | 'name' | 'timeZone' | 'language' | 'units' | 'altitudeM'>;
  readonly emergency: Emergency;
  readonly policy: Policy;
  readonly coatings: Readonly<Record<CoatingId, CoatingSheet>>;
  readonly rigs: Readonly<Record<RigId, Rig>>;
  /** Everybody in the pack; `crew` says who is on this shift. */
  readonly people: Readonly<Record<PersonId, Person>>;
  readonly crew: readonly PersonId[];
  readonly startsAt: Instant;
  readonly endsAt: Instant;
  readonly prestartAt: Instant;
  readonly breaks: readonly { readonly from: Instant; readonly to: Instant }[];
  /** What the site adds to the cautions of the catalogue; absent: nothing, or a day older than this field. */
  readonly cautions?: SiteCautions;
}

/** What an earlier shift leaves behind for the next briefing. */
export interface CarryOver {
  readonly fromShift: string;
  readonly fromDate: string;
  readonly tags: readonly {
    readonly rig: RigId;
    readonly cause: TagCause;
    readonly text: string;
    readonly since: Instant;
  }[];
  /** Rigs whose line was never confirmed flushed. */
  readonly unflushed: readonly {
    readonly rig: RigId;
    readonly coating: CoatingId;
    readonly mixedAt: Instant;
  }[];
  readonly skippedSteps: readonly { readonly rig: RigId; readonly step: string; readonly reason: string }[];
  readonly settledSolvent: readonly {
    readonly rig: RigId;
    readonly solvent: string;
    readonly litres: number;
  }[];
  readonly concerns: readonly { readonly by: string; readonly person: PersonId; readonly text: string }[];
  /** A stop-work that nobody cleared holds tomorrow as well. */
  readonly stop: { readonly at: Instant; readonly by: Actor; readonly text: string } | null;
  readonly coats: readonly {
    readonly area: string;
    readonly coating: CoatingId;
    readonly coat: string;
    /** When its first batch was mixed: the longest wait counts from here. */
    readonly firstAt: Instant;
    /** When the last of it can have been sprayed: the shortest wait counts from here. */
    readonly at: Instant;
    /** Steel readings since `firstAt`, and the last one before it, oldest first; thinned, see `thinnedSteel`. */
    readonly steel: readonly { readonly at: Instant; readonly c: number }[];
  }[];
  /** What people were told last, by caution id: its kind, without the figures. Absent: not known. */
  readonly told?: Readonly<Record<string, string>>;
  /** Read-back questions that somebody got wrong and the crew has not got right since. No names. */
  readonly misread?: readonly string[];
  /** Everybody who has been on a shift here, with what they worked on when it was sprayed. Absent: not known. */
  readonly experience?: Readonly<Record<PersonId, Experience>>;
  /** What last went through each rig. */
  readonly rigs?: Readonly<Record<RigId, { readonly coating: CoatingId; readonly solvent: string }>>;
}

export interface Experience {
  readonly coatings: readonly CoatingId[];
  readonly rigs: readonly RigId[];
}
