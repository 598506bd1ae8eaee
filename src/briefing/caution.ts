import type { Because } from './because.ts';
import type { Task } from './task.ts';

/** How hard a caution bites: `stop` can kill today and is never folded away. */
export type Grade = 'stop' | 'must' | 'watch';

export type Params = Readonly<Record<string, string | number>>;

export interface Caution {
  /** Text id and rule name, e.g. "injection". One caution a rule a briefing. */
  readonly id: string;
  readonly grade: Grade;
  /** Numbers and names for the reason text. */
  readonly params: Params;
  /** One row for each thing it applies to (a rig, a coating), for the "each" text. */
  readonly each: readonly Params[];
  /** Read-back questions this rule has; the right choice is choice 0 before turning. */
  readonly questions: readonly { readonly id: string; readonly choices: number }[];
  /** What was signed for: changes exactly when the reason or a number changes. */
  readonly fingerprint: string;
  /** What is dangerous about it, without its figures: the shift after knows by it what is new. */
  readonly kind: string;
  readonly tasks: readonly Task[] | 'everybody';
  readonly because: readonly Because[];
  /** Said alike on every day. */
  readonly habit: boolean;
  /** Says not to do it as things stand: never folded away, like a stop. Absent: no, or a day older than this field. */
  readonly unfolded?: true;
}

/** A briefing says why today; the words are chosen when it is shown. */
export interface Briefing {
  readonly revision: number;
  readonly cautions: readonly Caution[];
  readonly mustSign: readonly string[];
  /** Keys of cautions that are new or changed against the revision before; all of them in revision 1. */
  readonly changed: readonly string[];
  /** Ids of cautions that are new, or about something else, against the shift before; none when that is not known. */
  readonly fresh: readonly string[];
}
