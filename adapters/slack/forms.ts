import type { ModalView } from '@slack/types';
import { hashed, markerOf } from '../chat/marks.ts';
import { type Taken, takeSubmit } from '../chat/submit.ts';
import type { Visit } from '../chat/visit.ts';
import { messageView } from './answer.ts';
import { optionsFor } from './look.ts';
import type { FormOptions } from './render-form.ts';
import { readMetadata } from './render-metadata.ts';
import { problemsElsewhere, renderProblems } from './render-problems.ts';
import { readForm, type SubmittedView } from './render-read.ts';
import { formSteps, renderFormSteps } from './render-steps.ts';
import type { SlackServices } from './services.ts';

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

/** Takes a sheet and says with what the platform is to answer it. */
export async function answerSubmit(services: SlackServices, payload: SubmitPayload): Promise<SubmitAnswer> {
  const { view, user } = payload;
  const meta = readMetadata(view.private_metadata);
  const taken = await takeSubmit(services, {
    member: user.id,
    meta,
    sheet: view.id,
    values: () => readForm(view),
    steps: (visit, form) => formSteps(form, formOptions(services, visit, view.id, view.id)).length,
  });
  switch (taken.kind) {
    case 'shown': {
      const sheet = messageView(services, taken.visit, taken.message, hashed([view.id, view.hash]));
      return sheet === null ? { response_action: 'clear' } : { response_action: 'update', view: sheet };
    }
    case 'step':
      return stepOf(services, payload, taken, taken.at, {});
    case 'again': {
      const { form, problems, refusal } = taken;
      const inOneSheet = () =>
        meta?.step === undefined && formSteps(form, optionsOf(services, payload, taken)).length === 1;
      if (refusal === null && inOneSheet() && problemsElsewhere(problems, form).length === 0)
        return { response_action: 'errors', errors: renderProblems(problems, form) };
      return stepOf(services, payload, taken, 0, { problems, ...(refusal !== null && { refusal }) });
    }
  }
}

type Onwards = Exclude<Taken, { readonly kind: 'shown' }>;

function stepOf(
  services: SlackServices,
  payload: SubmitPayload,
  taken: Onwards,
  at: number,
  more: Pick<FormOptions, 'problems' | 'refusal'>,
): SubmitAnswer {
  const step = renderFormSteps(taken.form, { ...optionsOf(services, payload, taken), ...more })[at];
  if (step === undefined) throw new Error(`the form ${taken.form.id} has no step ${at + 1}`);
  return { response_action: 'update', view: step.view };
}

const optionsOf = (
  services: SlackServices,
  { view }: SubmitPayload,
  { visit, draft, typed }: Onwards,
): Omit<FormOptions, 'step'> => formOptions(services, visit, draft, hashed([view.id, view.hash, typed]));

/** `draft` is where what is typed on its steps is kept. */
export function formOptions(
  services: SlackServices,
  visit: Visit,
  draft: string,
  marker: string,
): Omit<FormOptions, 'step'> {
  const shift = visit.shift?.id ?? null;
  return { ...optionsFor(services, visit.texts, markerOf(shift, [marker]), 'inline'), draft, shift };
}
