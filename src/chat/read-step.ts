import { nextStep } from '../flow/flush.ts';
import { flushSteps } from '../model/checks.ts';
import { commandSchema } from '../model/command.ts';
import type { PersonId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Flush } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { stepName, stepsWithLitres } from '../views/flush.ts';
import { findRig } from './find-rig.ts';
import { said } from './fold.ts';
import { example } from './help.ts';
import { trimmed } from './read-rig.ts';
import { rigToType } from './rig-words.ts';
import { type Typed, type TypedContext, wrong } from './typed.ts';
import { wordToType } from './words.ts';

/** The same message sent twice arrives within this. */
const TWICE_MS = 10_000;

/**
 * "step": the next step of the running flush, as its button on the board: done, or the form that asks for the litres.
 * A button carries its step, a word does not. So the word alone is taken only from whoever did the step before, and not
 * for the same message arriving twice; else it is asked with the number of the step, or two people would confirm two
 * steps by reporting one, and a line would stand in the record as relieved that is not.
 */
export function readStep(text: string, context: TypedContext): Typed {
  const { texts, now, viewer } = context;
  const found = findRig('step', text, context);
  if (found.kind !== 'rig') return found;
  const { rig, shift } = found;
  const more = trimmed(found.rest);
  if (more !== '' && !/^\d{1,2}[\s\p{P}]*$/u.test(more))
    return wrong(texts.say('chat.not-read', { typed: said(more), example: example('step', texts) }));
  const spec = own(shift.day.rigs, rig);
  const name = spec?.name ?? rig;
  const flush = own(shift.rigs, rig)?.flush;
  const step = flush ? nextStep(flush) : null;
  if (!flush || !step)
    return wrong(texts.say('chat.no-flush', { rig: name, flush: wordToType('flush', texts) }));
  const number = flushSteps.indexOf(step) + 1;
  const meant = more === '' ? surely(flush, viewer, now) : Number.parseInt(more, 10) === number;
  if (!meant) {
    const typed = `${wordToType('step', texts)} ${number} ${spec ? rigToType(spec, shift, texts) : rig}`;
    const called = stepName({ shift, texts, now }, rig, step);
    return wrong(texts.say('chat.which-step', { rig: name, number, step: called, typed }));
  }
  const about = { rig, flush: flush.id, step };
  if (stepsWithLitres.includes(step)) return { kind: 'open', form: { id: 'confirm-step', about } };
  return { kind: 'do', command: commandSchema.parse({ type: 'confirm-step', ...about }) };
}

/** Whether the word alone can only mean the step that is next. */
function surely(flush: Flush, viewer: PersonId | null, now: Instant): boolean {
  const last = flushSteps.flatMap((step) => flush.steps[step] ?? []).at(-1);
  const before = last ?? { by: flush.by, at: Number.NEGATIVE_INFINITY };
  return before.by === viewer && now - before.at >= TWICE_MS;
}
