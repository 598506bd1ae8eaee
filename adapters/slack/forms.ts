import type { ModalView } from '@slack/types';
import { z } from 'zod';
import type { FormRef } from '../../src/message/action.ts';
import type { FieldProblem, FormValues } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { hashed, markerOf } from '../chat/marks.ts';
import { words } from '../chat/messages.ts';
import { answerTo, oldButton, unknownPerson } from '../chat/refused.ts';
import { ask, formContext, type Visit, visitOf } from '../chat/visit.ts';
import { messageView, type ReplyTo, tell, tellDirectly } from './answer.ts';
import { optionsFor } from './look.ts';
import type { FormOptions } from './render-form.ts';
import { type Metadata, readMetadata } from './render-metadata.ts';
import { problemsElsewhere, renderProblems } from './render-problems.ts';
import { readForm, type SubmittedView } from './render-read.ts';
import { formSteps, renderFormSteps } from './render-steps.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';

/** What a submitted sheet is answered with, in the platform's own shape. */
export type SubmitAnswer =
  | { readonly response_action: 'errors'; readonly errors: Record<string, string> }
  | { readonly response_action: 'update'; readonly view: ModalView }
  | { readonly response_action: 'clear' };

/** What is read of a `view_submission` payload. The answers' shape is checked where they are read. */
export interface SubmitPayload {
  readonly user: { readonly id: string };
  readonly view: SubmittedView & { readonly id: string; readonly hash?: string };
}

const valuesSchema = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

/** Opens a form over what somebody looks at. What was typed before it, `about.text`, stands in its field `text`. */
export async function openForm(
  services: SlackServices,
  out: Sender,
  visit: Visit,
  to: ReplyTo,
  ref: FormRef,
): Promise<void> {
  if (visit.person === null && ref.id !== 'stop-work')
    return tell(services, out, visit, to, unknownPerson(visit));
  const { text } = ref.about;
  const typed = text === undefined ? undefined : { text };
  const built = services.buildForm(ref, await formContext(services, visit), typed);
  if (!built.ok) return tell(services, out, visit, to, built.shown);
  const [first] = renderFormSteps(built.form, formOptions(services, visit, to.pressId, to.pressId));
  if (first === undefined) throw new Error(`the form ${ref.id} has no step`);
  const sent =
    to.place.kind === 'modal'
      ? await out.updateView({ id: to.place.view, hash: null }, first.view)
      : to.trigger === null
        ? ({ kind: 'retry', why: 'there is no trigger' } as const)
        : await out.openView(to.trigger, first.view);
  if (sent.kind === 'ok') return;
  services.log.warn({ form: ref.id, outcome: sent }, 'a form could not be opened');
  // A button instead: with the trigger of its own press it opens.
  const again = {
    label: built.form.title,
    tone: 'main',
    action: { kind: 'open', form: ref },
  } as const;
  await tellDirectly(services, out, visit, to.pressId, {
    ...words('attention', visit.texts.say('talk.form-late')),
    blocks: [{ kind: 'buttons', buttons: [again] }],
  });
}

/** Takes a sheet: on to the next step, back with what is to be mended, or to the one door. */
export async function takeSubmit(services: SlackServices, payload: SubmitPayload): Promise<SubmitAnswer> {
  const { view, user } = payload;
  const visit = await visitOf(services, user.id);
  const meta = readMetadata(view.private_metadata);
  const shown = (message: Message): SubmitAnswer => {
    const sheet = messageView(services, visit, message, hashed([view.id, view.hash]));
    return sheet === null ? { response_action: 'clear' } : { response_action: 'update', view: sheet };
  };
  if (meta === null) return shown(oldButton(visit));
  const ref: FormRef = { id: meta.form, about: meta.about };
  // A sheet left open over night was about another day's rigs and paint.
  const now = visit.shift?.id ?? null;
  if (meta.shift !== undefined && meta.shift !== now && ref.id !== 'stop-work' && ref.id !== 'post-day')
    return shown(oldButton(visit));
  if (visit.person === null && ref.id !== 'stop-work') return shown(unknownPerson(visit));

  const typed = { ...(await draftOf(services, meta)), ...readForm(view) };
  const context = await formContext(services, visit);
  const options = formOptions(services, visit, meta.draft ?? view.id, hashed([view.id, view.hash, typed]));
  if (meta.step !== undefined && meta.step.at < meta.step.of) {
    await services.memory.put(SLACK, draftKey(meta.draft ?? view.id), JSON.stringify(typed));
    const plain = services.buildForm(ref, context);
    if (!plain.ok) return shown(plain.shown);
    const next = renderFormSteps(plain.form, options)[meta.step.at];
    if (next !== undefined) return { response_action: 'update', view: next.view };
  }

  const built = services.buildForm(ref, context, typed);
  if (!built.ok) return shown(built.shown);
  const again = (problems: readonly FieldProblem[], refusal?: Message): SubmitAnswer => {
    const [first] = renderFormSteps(built.form, { ...options, problems, refusal });
    if (first === undefined) throw new Error(`the form ${ref.id} has no step`);
    return { response_action: 'update', view: first.view };
  };
  const read = services.readForm(ref, typed, context);
  if (!read.ok) {
    const onlyHere = meta.step === undefined && formSteps(built.form, options).length === 1;
    return onlyHere && problemsElsewhere(read.problems, built.form).length === 0
      ? { response_action: 'errors', errors: renderProblems(read.problems, built.form) }
      : again(read.problems);
  }
  const pressId = hashed([view.id, typed]);
  const asked = await ask(services, visit, read.command, pressId);
  if (!asked.ok && asked.shown !== null) return again([], asked.shown);
  if (meta.draft !== undefined) await services.memory.remove(SLACK, draftKey(meta.draft));
  return shown(answerTo(visit, read.command, asked));
}

const draftKey = (draft: string) => `draft:${draft}`;

/** What was typed on earlier steps. */
async function draftOf(services: SlackServices, { draft }: Metadata): Promise<FormValues> {
  const kept = draft === undefined ? null : await services.memory.get(SLACK, draftKey(draft));
  return kept === null ? {} : valuesSchema.parse(JSON.parse(kept));
}

function formOptions(
  services: SlackServices,
  visit: Visit,
  draft: string,
  marker: string,
): Omit<FormOptions, 'step'> {
  const shift = visit.shift?.id ?? null;
  return { ...optionsFor(services, visit.texts, markerOf(shift, [marker]), 'inline'), draft, shift };
}
