import { needsToSign } from '../briefing/build.ts';
import type { Caution } from '../briefing/caution.ts';
import { tasksOf } from '../briefing/task.ts';
import { nameOf } from '../flow/decision.ts';
import { maySign, openQuestion, questionId } from '../flow/sign-off.ts';
import { buttons, heading, list, message, note, paragraph, strong } from '../message/build.ts';
import type { Block, Button, Message } from '../message/message.ts';
import type { PersonId } from '../model/id.ts';
import { cautionsInOrder, injectionFooter } from './cautions.ts';
import { at, type View } from './context.ts';
import { uncheckedBlocks } from './unchecked.ts';

/**
 * What one person has to read, answer and sign now. With `witness`, the buttons are for the foreman who stands beside
 * somebody without a phone.
 */
export function signOffMessage(view: View, person: PersonId, witness = false): Message {
  return signOffOver(view, person) ?? signOffOpen(view, person, witness, nextBlocks(view, person, witness));
}

/** The press that brings a person on, and the way to say that something is wrong instead. */
const nextBlocks = (view: View, person: PersonId, witness: boolean): readonly Block[] =>
  buttons(nextPress(view, person, witness), concernInstead(view));

/**
 * The same for a chat, where a page more is a tap more: the open question stands right there with its answers to press.
 */
export function signOffInChat(view: View, person: PersonId): Message {
  const over = signOffOver(view, person);
  if (over) return over;
  const question = maySign(view.shift, person) ? null : questionWords(view, person);
  if (question === null) return signOffOpen(view, person, false, nextBlocks(view, person, false));
  const { revision } = view.shift.briefing;
  // The words stand in full above: a chat cuts what is on a button, and the right answer is seldom the shortest.
  const letters = question.choices.map((_choice, index) => 'ABCDEFGH'.charAt(index));
  const answers = letters.map(
    (label, choice): Button => ({
      label,
      tone: 'plain',
      action: { kind: 'do', command: { type: 'answer', revision, question: question.id, choice } },
    }),
  );
  return signOffOpen(view, person, false, [
    heading(view.texts.say('sign.question')),
    paragraph(strong(question.ask)),
    list(question.choices.map((words, index) => `${letters[index]}: ${words}`)),
    ...buttons(...answers),
    { kind: 'divider' },
    ...buttons(concernInstead(view)),
  ]);
}

/** Why there is nothing to read and sign now; null when there is. */
function signOffOver(view: View, person: PersonId): Message | null {
  const { shift, texts } = view;
  const name = nameOf(shift, person);
  const { revision } = shift.briefing;
  if (!shift.day.crew.includes(person)) {
    const text = texts.say('sign.not-on-shift', { person: name });
    const arrived: Button = {
      label: texts.say('today.arrived'),
      tone: 'main',
      action: { kind: 'do', command: { type: 'arrive', person } },
    };
    return message(text, 'attention', paragraph(text), ...buttons(arrived));
  }
  if (shift.issuedAt === null) {
    const text = texts.say('sign.wait', { time: at(view, shift.day.prestartAt) });
    return message(text, 'plain', paragraph(text));
  }
  if (needsToSign(shift.briefing, shift.people[person]?.signed ?? {}).length > 0) return null;
  const text = texts.say('sign.nothing', { person: name, revision });
  return message(text, 'good', paragraph(text));
}

function signOffOpen(view: View, person: PersonId, witness: boolean, press: readonly Block[]): Message {
  const ask = view.texts.say('sign.ask', { person: nameOf(view.shift, person) });
  return message(
    ask,
    'attention',
    heading(ask),
    ...toRead(view, person, witness),
    ...answeredNotes(view, person),
    ...press,
  );
}

/** What came of the last answer to the question of this revision. */
export function answeredNotes(view: View, person: PersonId): readonly Block[] {
  const { shift, texts } = view;
  const last = shift.people[person]?.answers.at(-1);
  const wrong = last && last.revision === shift.briefing.revision && !last.right ? last.question : null;
  return [
    ...(wrong ? [note('attention', texts.say('sign.wrong', { because: because(view, wrong) }))] : []),
    ...(maySign(shift, person) ? [note('good', texts.say('sign.right'))] : []),
  ];
}

export const concernInstead = ({ texts }: View): Button => ({
  label: texts.say('sign.concern-instead'),
  tone: 'plain',
  action: { kind: 'open', form: { id: 'raise-concern', about: {} } },
});

/** Cautions by their names, where their words are read aloud from the briefing. */
export const titles = ({ texts }: View, cautions: readonly Caution[]): Block =>
  list(cautions.map(({ id }) => texts.caution(id).title));

/** What somebody reads before signing. With a witness it is read aloud from the briefing: here are the names. */
export function toRead(view: View, person: PersonId, witness: boolean): readonly Block[] {
  const { shift } = view;
  const needed = needsToSign(shift.briefing, shift.people[person]?.signed ?? {});
  return [
    ...uncheckedBlocks(view),
    ...(witness ? [titles(view, needed)] : cautionsInOrder(view, needed, tasksOf(shift.day, person))),
    injectionFooter(view),
  ];
}

/** The one press that brings a person on: the open question, or the sign-off. */
export function nextPress({ shift, texts }: View, person: PersonId, witness: boolean): Button {
  const { revision } = shift.briefing;
  if (maySign(shift, person)) {
    const witnessFor = witness ? { witnessFor: person } : {};
    return {
      label: texts.say('sign.sign'),
      tone: 'main',
      action: { kind: 'do', command: { type: 'sign', revision, ...witnessFor } },
    };
  }
  const about = { person, ...(witness ? { witness: 'yes' } : {}) };
  const again = shift.people[person]?.answers.some((given) => given.revision === revision);
  return {
    label: texts.say(again ? 'sign.next-question' : 'sign.question'),
    tone: 'main',
    action: { kind: 'open', form: { id: 'read-back', about } },
  };
}

/** Why the right answer is right, for somebody who just gave another. */
export function because({ texts }: View, question: string): string {
  const [caution = '', id = ''] = question.split('/');
  return texts.caution(caution).question(id).because;
}

/** The open question with its choices in the order shown to this person; null when none is open. */
export function questionWords(view: View, person: PersonId) {
  const picked = openQuestion(view.shift, person);
  if (!picked) return null;
  const words = view.texts.caution(picked.caution).question(picked.question);
  return {
    id: questionId(picked),
    ask: words.ask,
    choices: picked.order.map((choice) => words.choices[choice] ?? ''),
  };
}
