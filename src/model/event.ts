import type { Briefing } from '../briefing/caution.ts';
import type { Actor } from './actor.ts';
import type { FlushStep, RigCheck } from './checks.ts';
import type { CarryOver, Day } from './day.ts';
import type { PersonId, RigId } from './id.ts';
import type { Batch, BellLevel, Reading, TagCause } from './shift.ts';
import type { Shown } from './shown.ts';
import type { Person } from './site.ts';
import type { Instant } from './time.ts';

/** What happened, as the journal keeps it. Facts only: what follows from them is computed from the shift. */
export type EventBody =
  | {
      readonly type: 'day-posted';
      readonly day: Day;
      readonly briefing: Briefing;
      readonly carriedIn: CarryOver | null;
      readonly previousHead: string | null;
    }
  | { readonly type: 'day-changed'; readonly day: Day; readonly briefing: Briefing }
  /** What the last shift left, as it stood when the briefing went out, and the briefing with it. */
  | {
      readonly type: 'carried-over';
      readonly carriedIn: CarryOver;
      readonly previousHead: string;
      readonly briefing: Briefing;
    }
  | { readonly type: 'briefing-issued'; readonly revision: number }
  | { readonly type: 'person-arrived'; readonly person: Person }
  | {
      readonly type: 'question-answered';
      readonly person: PersonId;
      readonly revision: number;
      readonly question: string;
      readonly right: boolean;
      readonly witnessedBy: PersonId | null;
      /** Question and choices as they stood there, the pressed one marked. */
      readonly shown?: Shown | null;
    }
  | {
      readonly type: 'signed';
      readonly person: PersonId;
      readonly revision: number;
      readonly cautions: Readonly<Record<string, string>>;
      readonly witnessedBy: PersonId | null;
      /** The page that was signed, word for word. With a witness: the names of what was read aloud. */
      readonly shown?: Shown | null;
    }
  | {
      readonly type: 'concern-raised';
      readonly concern: string;
      readonly by: PersonId;
      readonly text: string;
    }
  | {
      readonly type: 'concern-resolved';
      readonly concern: string;
      readonly by: PersonId;
      readonly text: string;
    }
  | {
      readonly type: 'rig-checked';
      readonly rig: RigId;
      readonly by: PersonId;
      readonly results: Readonly<Partial<Record<RigCheck, 'ok' | 'defect'>>>;
      readonly note: string;
    }
  | { readonly type: 'rig-tagged'; readonly rig: RigId; readonly cause: TagCause; readonly text: string }
  | {
      readonly type: 'tag-cleared';
      readonly rig: RigId;
      readonly by: PersonId;
      readonly text: string;
      readonly lineClean: boolean;
    }
  | { readonly type: 'reading-taken'; readonly reading: Omit<Reading, 'at'> }
  /** A reading that was wrong: it no longer counts, and stays in the journal with the reason. */
  | {
      readonly type: 'reading-voided';
      readonly takenAt: Instant;
      readonly by: PersonId;
      readonly reason: string;
    }
  | { readonly type: 'batch-mixed'; readonly batch: Batch; readonly renewLitres: number | null }
  | {
      readonly type: 'mix-temperature-mended';
      readonly rig: RigId;
      readonly batch: string;
      readonly c: number;
      readonly before: number;
      readonly by: PersonId;
    }
  /** A batch that never was in this rig: it no longer counts, and stays in the journal with the reason. */
  | {
      readonly type: 'batch-voided';
      readonly rig: RigId;
      readonly batch: string;
      readonly by: PersonId;
      readonly reason: string;
    }
  | {
      readonly type: 'temperature-noted';
      readonly rig: RigId;
      readonly where: 'pot' | 'hose';
      readonly c: number;
      readonly basis: 'measured' | 'felt-warm';
    }
  | { readonly type: 'paused'; readonly rig: RigId; readonly why: string }
  | { readonly type: 'resumed'; readonly rig: RigId }
  | { readonly type: 'pot-emptied'; readonly rig: RigId; readonly wastedL: number }
  | { readonly type: 'line-renewed'; readonly rig: RigId; readonly sprayedL: number }
  | {
      readonly type: 'fan-tested';
      readonly rig: RigId;
      readonly by: PersonId;
      readonly tip: string;
      readonly widthMm: number;
      /** What the tip's code stands for; null when it is no three-digit code. */
      readonly codeMm: number | null;
    }
  | { readonly type: 'flush-started'; readonly rig: RigId; readonly flush: string; readonly by: PersonId }
  | {
      readonly type: 'step-confirmed';
      readonly rig: RigId;
      readonly flush: string;
      readonly step: FlushStep;
      readonly by: PersonId;
      readonly litres: number | null;
      readonly note: string;
    }
  | {
      readonly type: 'step-skipped';
      readonly rig: RigId;
      readonly flush: string;
      readonly step: FlushStep;
      readonly by: PersonId;
      readonly reason: string;
    }
  | { readonly type: 'flush-finished'; readonly rig: RigId; readonly flush: string }
  /** Begun by mistake and given up before the pressure was relieved: nothing was taken out. */
  | {
      readonly type: 'flush-abandoned';
      readonly rig: RigId;
      readonly flush: string;
      readonly by: PersonId;
      readonly reason: string;
    }
  | { readonly type: 'work-stopped'; readonly text: string }
  | { readonly type: 'stop-cleared'; readonly by: PersonId; readonly text: string }
  | {
      readonly type: 'bell-rang';
      readonly bell: string;
      readonly kind: string;
      readonly rig: RigId | null;
      readonly person: PersonId | null;
      readonly level: BellLevel;
      readonly step: number;
      readonly dueAt: Instant;
      readonly scheduledFor: Instant;
      readonly late: boolean;
      readonly missedRings: number;
    }
  | { readonly type: 'bell-answered'; readonly bell: string; readonly by: PersonId }
  | {
      readonly type: 'message-undelivered';
      readonly message: string;
      readonly to: string;
      readonly surface: string;
      readonly why: string;
    }
  | {
      readonly type: 'shift-closed';
      /** Null when a later day took over a shift that nobody closed. */
      readonly by: PersonId | null;
      readonly reason: string;
      readonly carryOver: CarryOver;
    };

export type EventType = EventBody['type'];
export type EventOf<T extends EventType> = Extract<EventBody, { type: T }>;

/** One line of the journal. */
export interface JournalEvent {
  readonly seq: number;
  readonly at: Instant;
  readonly by: Actor;
  /** The id of the command that caused it; a repeated command finds itself by this. */
  readonly commandId: string;
  readonly body: EventBody;
}
