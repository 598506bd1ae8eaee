import { buttons, heading, message, note, paragraph, strong } from '../message/build.ts';
import type { Message, Tone } from '../message/message.ts';
import type { Command, CommandType } from '../model/command.ts';
import type { EventBody } from '../model/event.ts';
import type { Outgoing } from '../ports.ts';
import type { View } from './context.ts';
import { because, nextPress } from './sign-off.ts';

/** Presses whose answer is what everybody is told: it holds the times, or the next step with its buttons. */
const answeredBySaying: readonly CommandType[] = [
  'mix-batch',
  'take-reading',
  'mend-mix-temperature',
  'void-batch',
  'pot-temperature',
  'hose-temperature',
  'hose-warm',
  'pause',
  'resume',
  'pot-empty',
  'line-renewed',
  'test-fan',
  'start-flush',
  'confirm-step',
  'skip-step',
  'abandon-flush',
  'close-shift',
];

/** Read from two metres, a friendly colour over STOP WORK is a permission. */
const doneTones: Readonly<Partial<Record<CommandType, Tone>>> = {
  'stop-work': 'danger',
  'report-defect': 'danger',
  'raise-concern': 'attention',
  'answer-bell': 'attention',
};

/** What the person who asked is shown once it is done. `said`: what everybody is told, for the presses that show it. */
export function doneMessage(
  view: View,
  command: Command,
  events: readonly EventBody[],
  said: () => readonly Pick<Outgoing, 'audience' | 'message'>[],
): Message {
  const { texts } = view;
  const [first] = events;
  if (first?.type === 'question-answered') return answerMessage(view, first);
  const showsTold =
    // Who changed the day sees what is different now: a slip shows at once.
    first?.type === 'day-changed' ||
    answeredBySaying.includes(command.type) ||
    events.some(({ type }) => type === 'rig-tagged');
  const toCrew = showsTold ? said().find(({ audience }) => audience.kind === 'crew') : undefined;
  if (toCrew) return toCrew.message;
  const text = texts.say(`done.${command.type}`);
  return message(text, doneTones[command.type] ?? 'plain', paragraph(text));
}

/** A wrong answer gets the reason and another question, no blame; a right one gets the button to sign. */
function answerMessage(view: View, answered: Extract<EventBody, { type: 'question-answered' }>): Message {
  const { texts } = view;
  const { right, question, person, witnessedBy } = answered;
  const next = nextPress(view, person, witnessedBy !== null);
  if (right)
    return message(texts.say('sign.right'), 'good', paragraph(texts.say('sign.right')), ...buttons(next));
  const summary = texts.say('sign.wrong-summary');
  const reason = strong(texts.say('sign.wrong', { because: because(view, question) }));
  return message(summary, 'attention', heading(summary), note('attention', reason), ...buttons(next));
}

export function repeatedMessage({ texts }: Pick<View, 'texts'>): Message {
  const text = texts.say('done.repeated');
  return message(text, 'plain', paragraph(text));
}
