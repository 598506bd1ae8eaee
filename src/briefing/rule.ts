import type { CarryOver, Day } from '../model/day.ts';
import type { Because } from './because.ts';
import type { Grade, Params } from './caution.ts';
import type { Task } from './task.ts';

/** What a rule may look at: the day as posted and what the last shift left. No clock, no readings: those are holds. */
export interface DayFacts {
  readonly day: Day;
  readonly carriedIn: CarryOver | null;
}

export interface Finding {
  /** Only where the rule bites harder in one place than in another; left out, the rule's own grade. */
  readonly grade?: Grade;
  readonly params: Params;
  readonly each: readonly Params[];
  /** Said alike on every day: read after what is particular to this one. Never on a stop. */
  readonly habit?: true;
  /** Says not to do it as things stand: read right after the stops and never folded away. A stop needs none. */
  readonly unfolded?: true;
  /** The facts that made the rule speak. They are no part of what is signed for. */
  readonly because: readonly Because[];
}

/**
 * One caution: when it applies today and with which numbers. The words are in
 * `templates/<language>/cautions/<id>.md`, the sources in `docs/cautions/<id>.md`.
 */
export interface CautionRule {
  readonly id: string;
  readonly grade: Grade;
  /** Whose hands it is about: they read it before what is others' business. */
  readonly tasks: readonly Task[] | 'everybody';
  /** Placeholders its texts may use, besides none. */
  readonly params: readonly string[];
  readonly eachParams: readonly string[];
  readonly questions: readonly { readonly id: string; readonly choices: number }[];
  /** null: does not apply today. */
  find(facts: DayFacts): Finding | null;
}
