/**
 * Every word a chat renderer adds of their own; all else comes from messages and forms.
 * `{name}` in braces is filled by `fill`; which braces a string may use is shown in the English set.
 */
export interface ChatWords {
  readonly toneGood: string;
  readonly toneAttention: string;
  readonly toneDanger: string;
  readonly stateDone: string;
  readonly stateOpen: string;
  readonly stateNext: string;
  readonly stateSkipped: string;
  readonly stateDefect: string;
  /** Which of several messages that belong together. */
  readonly part: string;
  /** Where folded detail was put. */
  readonly inThread: string;
  /** On a button that shows and hides what the line above it names. */
  readonly show: string;
  /** Ends a notification text that could not hold everything. */
  readonly restInMessage: string;
  readonly step: string;
  readonly next: string;
  readonly close: string;
  readonly submits: string;
  readonly chooseOne: string;
  readonly nothingToChoose: string;
  readonly formProblems: string;
  readonly formRefused: string;
}

/** The English set, for tests and as a pattern for `templates/`. */
export const defaultChatWords: ChatWords = {
  toneGood: 'Noted',
  toneAttention: 'Attention',
  toneDanger: 'Danger',
  stateDone: 'Done',
  stateOpen: 'Open',
  stateNext: 'Next',
  stateSkipped: 'Skipped',
  stateDefect: 'Defect',
  part: '{at} of {of}',
  inThread: 'in the thread of this message',
  show: 'Show',
  restInMessage: 'This is not all. Open the message and read the rest.',
  step: 'Step {at} of {of}',
  next: 'Next',
  close: 'Back without sending',
  submits: 'The button below: {label}',
  chooseOne: 'Choose',
  nothingToChoose: 'nothing to choose from',
  formProblems: 'Not sent yet. Mend this first:',
  formRefused: 'Not taken. Nothing was changed.',
};

/** Fill `{name}` places. A place without a value stays visible: a missing figure must be seen, not vanish. */
export function fill(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{(\w+)\}/g, (place, name: string) => String(values[name] ?? place));
}
