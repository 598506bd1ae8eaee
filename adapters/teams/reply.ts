import type { Again } from '../chat/again.ts';
import { dialogNote, noteBody } from './answers.ts';
import type { Press } from './inbound.ts';
import type { Answer } from './link.ts';

/** How what somebody did is answered; a written line is answered with nothing. */
export type Way = Press['answer'] | 'line';

/** The one answer to one request. */
export interface Reply {
  readonly way: Way;
  /** True when this became the answer; false when there was one already. */
  give(body: object | null): boolean;
  /** The same with a few words, in whatever form the request takes them. */
  note(text: string): boolean;
  readonly given: Promise<Answer>;
}

/**
 * Teams shows people an error after 5 s at the soonest (learn.microsoft.com/microsoftteams/platform/
 * messaging-extensions/how-to/action-commands/respond-to-task-module-submit, said there of message extensions) and asks
 * again. `late`: what is answered by then, while the work goes on and is shown in the person's own chat.
 */
const ANSWER_WITHIN_MS = 2_000;

export function createReply(way: Way, again: Again, late: () => string): Reply {
  let settle: ((answer: Answer) => void) | null = null;
  const given = new Promise<Answer>((resolve) => {
    settle = resolve;
  });
  function give(body: object | null): boolean {
    if (settle === null) return false;
    settle({ status: 200, body });
    settle = null;
    callOff?.();
    return true;
  }
  const note = (text: string): boolean => give(bodyOf(way, text));
  // A message is answered when it is done: until then Teams keeps it and sends it again.
  const waits = way === 'card' || way === 'dialog';
  const callOff = waits ? again(ANSWER_WITHIN_MS, () => void note(late())) : null;
  return { way, give, note, given };
}

function bodyOf(way: Way, text: string): object | null {
  switch (way) {
    case 'card':
      return noteBody(text);
    case 'dialog':
      return dialogNote(text);
    case 'message':
    case 'line':
      return null;
  }
}
