import type { Briefing } from '../briefing/caution.ts';
import type { TemperatureStep } from '../trade/dose.ts';
import type { HoseColour } from '../trade/sun.ts';
import type { Actor } from './actor.ts';
import type { FlushStep, RigCheck } from './checks.ts';
import type { CarryOver, Day } from './day.ts';
import type { DayEntry, Job } from './day-entry.ts';
import type { BatchId, CoatingId, PersonId, RigId, ShiftId } from './id.ts';
import type { TestFan } from './test-fan.ts';
import type { Instant } from './time.ts';

/** Everything Potbell knows of one shift. Plain data: it is stored as JSON and equals the replayed journal. */
export interface Shift {
  readonly id: ShiftId;
  readonly date: string;
  readonly status: 'open' | 'closed';
  readonly postedAt: Instant;
  readonly closedAt: Instant | null;
  readonly closeReason: string;
  readonly day: Day;
  /** The day entry people heard before the last change of the day; null while there was no other. */
  readonly heardBefore?: DayEntry | null;
  readonly carriedIn: CarryOver | null;
  readonly briefing: Briefing;
  /** When the current revision went out; null while it waits for the prestart time. */
  readonly issuedAt: Instant | null;
  readonly people: Readonly<Record<PersonId, PersonState>>;
  readonly concerns: readonly Concern[];
  readonly stop: { readonly at: Instant; readonly by: Actor; readonly text: string } | null;
  readonly stopClearedAt: Instant | null;
  readonly readings: readonly Reading[];
  readonly rigs: Readonly<Record<RigId, RigState>>;
  readonly bells: Readonly<Record<string, BellState>>;
  /** Jobs that a change of the day took out after paint for them had been mixed: their coats wait all the same. */
  readonly pastJobs?: readonly Pick<Job, 'area' | 'coating' | 'coat' | 'rig'>[];
  readonly undelivered: readonly {
    readonly at: Instant;
    readonly to: string;
    readonly surface: string;
    readonly why: string;
  }[];
  /** Sequence number of the last journal event folded in. */
  readonly seq: number;
}

export interface PersonState {
  /** When this person was first asked to sign (issue of the briefing, or arrival). */
  readonly askedAt: Instant | null;
  readonly arrivedLate: boolean;
  /** Fingerprints of the cautions signed for, by caution key. */
  readonly signed: Readonly<Record<string, string>>;
  readonly signOffs: readonly SignOff[];
  readonly answers: readonly ReadBackAnswer[];
}

export interface SignOff {
  readonly revision: number;
  readonly at: Instant;
  readonly witnessedBy: PersonId | null;
  readonly surface: string;
  readonly cautions: readonly string[];
}

export interface ReadBackAnswer {
  readonly revision: number;
  readonly at: Instant;
  readonly question: string;
  readonly right: boolean;
}

export interface Concern {
  readonly id: string;
  readonly at: Instant;
  readonly by: PersonId;
  readonly text: string;
  readonly resolved: { readonly at: Instant; readonly by: PersonId; readonly text: string } | null;
}

export interface Reading {
  readonly at: Instant;
  readonly by: PersonId;
  readonly airC: number;
  readonly rhPct: number;
  readonly wetC: number | null;
  readonly wbgtC: number | null;
  readonly steelC: number;
  readonly place: string;
}

export interface RigState {
  readonly checked: {
    readonly at: Instant;
    readonly by: PersonId;
    readonly results: Readonly<Partial<Record<RigCheck, 'ok' | 'defect'>>>;
  } | null;
  /** Paint that an earlier shift left in the line; stays until a first flush is confirmed or the line was replaced. */
  readonly unflushed: { readonly coating: CoatingId; readonly mixedAt: Instant } | null;
  /** The tag came over from the last shift. */
  readonly carriedTag: boolean;
  /** The foreman has dealt in this shift with what the last one left on this rig: it is not put on again. */
  readonly carriedSettled: boolean;
  readonly tag: { readonly at: Instant; readonly cause: TagCause; readonly text: string } | null;
  readonly batches: readonly Batch[];
  readonly pot: Mixed | null;
  readonly line: Mixed | null;
  /** Litres of the present pot's batch that must have been sprayed before the line counts as fresh; null when it does. */
  readonly renewLitres: number | null;
  readonly pausedAt: Instant | null;
  /** When spraying last went on after a pause. */
  readonly resumedAt?: Instant | null;
  /** Test fans, oldest first: how wide the tip sprayed, mm. */
  readonly fans?: readonly TestFan[];
  readonly flush: Flush | null;
  readonly flushes: readonly Flush[];
  /** What would be in this rig had its last batch not been logged; null when that cannot be known any more. */
  readonly beforeLast?: BeforeLast | null;
  /** Batches taken back as never in this rig. They count for nothing; their numbers are not used again. */
  readonly voided?: readonly VoidedBatch[];
  /** Flushes begun by mistake and given up before the pressure was relieved. */
  readonly abandoned?: readonly AbandonedFlush[];
}

/** Kept in step with the temperatures and pauses noted since the batch was logged. */
export interface BeforeLast {
  readonly batch: BatchId;
  readonly pot: Mixed | null;
  readonly line: Mixed | null;
  readonly renewLitres: number | null;
  readonly pausedAt: Instant | null;
}

export interface VoidedBatch {
  readonly batch: Batch;
  readonly at: Instant;
  readonly by: PersonId;
  readonly reason: string;
}

export interface AbandonedFlush {
  readonly id: string;
  readonly startedAt: Instant;
  readonly at: Instant;
  readonly by: PersonId;
  readonly reason: string;
}

/** What put the tag on. `text` holds a person's own words, or the checks that failed. */
export type TagCause = 'check' | 'report' | 'flush' | 'not-flushed';

export const holdKinds = [
  'stop-work',
  'not-briefed',
  'unsigned',
  'concern',
  'no-reading',
  'old-reading',
  'climate',
  'rig-unchecked',
  'rig-tagged',
  'unflushed-line',
  'over-rating',
  'rating-unknown',
  'pot-life-unknown',
  'past-pot-life',
] as const;
export type HoldKind = (typeof holdKinds)[number];

export interface Batch {
  readonly id: BatchId;
  readonly at: Instant;
  readonly loggedAt: Instant;
  readonly by: PersonId;
  readonly rig: RigId;
  readonly coating: CoatingId;
  readonly litres: number;
  readonly aL: number;
  readonly bL: number;
  readonly thinnerL: number;
  readonly paintC: number;
  readonly pot: 'fresh' | 'on-top';
  /** The holds that stood when it was mixed. */
  readonly underHolds: readonly HoldKind[];
}

/** Mixed paint in one place (pot or line): the oldest batch in it and the temperatures it has seen. */
export interface Mixed {
  readonly batch: BatchId;
  readonly coating: CoatingId;
  readonly mixedAt: Instant;
  readonly history: readonly TemperatureStep[];
  /** When this was last told anything: logged, measured, felt. A bell that the news makes due is due from then. */
  readonly notedAt: Instant;
  /** Line only: the last temperature was the hose's own, and whether it was felt warm rather than measured. */
  readonly ownC?: boolean;
  readonly warm?: boolean;
  /** Line only: where it stood still in the sun and has not been measured since. Its warmth then is estimated. */
  readonly sun?: readonly SunStand[];
}

/** A line standing still in the sun, with all that its temperature is estimated from. */
export interface SunStand {
  readonly from: Instant;
  /** Null while it stands. */
  readonly until: Instant | null;
  /** °C: paint when it stopped, air at its warmest as far as known. */
  readonly startC: number;
  readonly airC: number;
  readonly colour: HoseColour;
  readonly boreMm: number;
  /** When it stopped, if the estimate went on from a reading since. */
  readonly first?: Instant;
  /** The hose was measured at this since: it never was warmer. */
  readonly mostC?: number;
}

export interface Flush {
  readonly id: string;
  readonly startedAt: Instant;
  readonly by: PersonId;
  readonly coating: CoatingId | null;
  readonly steps: Readonly<Partial<Record<FlushStep, StepOutcome>>>;
  readonly finishedAt: Instant | null;
}

export type StepOutcome =
  | {
      readonly kind: 'done';
      readonly at: Instant;
      readonly by: PersonId;
      readonly litres: number | null;
      readonly note: string;
    }
  | { readonly kind: 'skipped'; readonly at: Instant; readonly by: PersonId; readonly reason: string };

export interface BellState {
  readonly kind: string;
  readonly rig: RigId | null;
  readonly person: PersonId | null;
  /** The due time it rang for; when the wanted time moves later than this it rings again. */
  readonly dueAt: Instant;
  /** Every ring, oldest first; `step` counts the escalation steps, rung or missed. */
  readonly rings: readonly {
    readonly at: Instant;
    readonly scheduledFor: Instant;
    readonly step: number;
    readonly level: BellLevel;
    readonly late: boolean;
  }[];
  readonly answered: { readonly at: Instant; readonly by: PersonId } | null;
  /** Answers for the same time after which it came back because its cause still stood, oldest first. */
  readonly answers?: readonly NonNullable<BellState['answered']>[];
  /** Rings for earlier times of the same bell, before it was moved later. */
  readonly past: BellRings;
}

export type BellRings = BellState['rings'];

export type BellLevel = 'crew' | 'foreman' | 'safety';
