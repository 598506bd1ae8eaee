import { maySign } from '../flow/sign-off.ts';
import { message } from '../message/build.ts';
import { plainText } from '../message/plain-text.ts';
import type { Actor } from '../model/actor.ts';
import type { Command } from '../model/command.ts';
import type { Shown } from '../model/shown.ts';
import type { View } from './context.ts';
import { questionWords, toRead } from './sign-off.ts';

/**
 * The words behind a sign-off or an answer, as they were on the page of whoever pressed: words in the templates change, and
 * the record has to say what was read then. Null for commands that sign for nothing.
 */
export function shownFor(view: View, command: Command, actor: Actor): Shown | null {
  if (actor.kind !== 'person') return null;
  if (command.type !== 'sign' && command.type !== 'answer') return null;
  const person = command.witnessFor ?? actor.person;
  const { language } = view.texts;
  if (command.type === 'sign') {
    if (!maySign(view.shift, person)) return null;
    const { date, briefing } = view.shift;
    const { revision, cautions } = briefing;
    const summary = view.texts.say('brief.summary', { date, revision, count: cautions.length });
    const read = toRead(view, person, command.witnessFor !== undefined);
    return { language, text: plainText(message(summary, 'plain', ...read)) };
  }
  const question = questionWords(view, person);
  if (question === null || question.id !== command.question) return null;
  const choices = question.choices.map(
    (choice, index) => `${index === command.choice ? '[x]' : '[ ]'} ${choice}`,
  );
  return { language, text: [question.ask, ...choices].join('\n') };
}
