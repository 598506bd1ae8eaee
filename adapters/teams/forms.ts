import type { Form } from '../../src/message/form.ts';
import { hashed } from '../chat/marks.ts';
import { takeSubmit } from '../chat/submit.ts';
import type { Visit } from '../chat/visit.ts';
import type { Submit } from './inbound.ts';
import { optionsFor } from './look.ts';
import type { FormOptions } from './render-form.ts';
import { formSteps, renderFormSteps } from './render-steps.ts';
import type { TeamsServices } from './services.ts';
import type { TeamsShowing } from './showing.ts';

/** How a form is rendered. `draft` names this opening of it: under it is kept what is typed on its steps. */
export function formOptions(
  services: TeamsServices,
  visit: Visit,
  draft: string,
  dialog: boolean,
): Omit<FormOptions, 'step'> {
  const shift = visit.shift?.id ?? null;
  const options = { ...optionsFor(services, visit.texts, shift), draft, shift };
  return dialog ? { ...options, dialog } : { ...options, back: { kind: 'show', page: 'today' } };
}

/** Takes a sent form; the next step, what is to be mended, or what came of it stands where it stood. */
export async function answerSubmit(
  services: TeamsServices,
  show: TeamsShowing,
  { member, form: meta, values, answer, pressKey }: Submit,
): Promise<void> {
  const dialog = answer === 'dialog';
  // Every form of ours has a draft; without one it is an old one, and what was typed tells two openings apart.
  const sheet = meta.draft ?? hashed([member, pressKey]);
  const options = (visit: Visit) => formOptions(services, visit, sheet, dialog);
  const taken = await takeSubmit(services, {
    member,
    meta,
    sheet,
    values: () => values,
    steps: (visit: Visit, form: Form) => formSteps(form, options(visit)).length,
  });
  const { visit } = taken;
  switch (taken.kind) {
    case 'shown':
      return show.over(visit, show.cardsOf(visit, taken.message));
    case 'step':
      return show.over(visit, [cardAt(taken.form, options(visit), taken.at)]);
    case 'again': {
      const { problems, refusal } = taken;
      const mending = { ...options(visit), problems, ...(refusal !== null && { refusal }) };
      return show.over(visit, [cardAt(taken.form, mending, 0)]);
    }
  }
}

function cardAt(form: Form, options: Omit<FormOptions, 'step'>, at: number) {
  const step = renderFormSteps(form, options)[at];
  if (step === undefined) throw new Error(`the form ${form.id} has no step ${at + 1}`);
  return { summary: step.title, card: step.card };
}
