import { packSections, problemsOn, sectionsOf } from '../../src/chat/form-steps.ts';
import type { Field, Form } from '../../src/message/form.ts';
import type { Card } from './render-card.ts';
import { type FormOptions, fits, renderForm } from './render-form.ts';

/**
 * A form as cards one after the other, one where it fits. The answers of all of them together are the answers to the
 * form. Throws RangeError for a single field that no card holds.
 */
export function renderFormSteps(
  form: Form,
  options: Omit<FormOptions, 'step'>,
): readonly { readonly title: string; readonly card: Card }[] {
  const forms = formSteps(form, options);
  if (forms.length === 1) return [renderForm(form, options)];
  return forms.map((sheet, at) => renderForm(sheet, stepOptions(form, sheet, at, forms.length, options)));
}

function stepOptions(
  form: Form,
  sheet: Form,
  at: number,
  of: number,
  options: Omit<FormOptions, 'step'>,
): FormOptions {
  const problems = problemsOn(sheet, form, at, options.problems ?? []);
  return { ...options, step: { at: at + 1, of }, problems, ...(at === 0 ? {} : { refusal: undefined }) };
}

/**
 * The form in as many forms as it takes, in the order of its fields. Only a section too long for any card is cut inside.
 * Only the first has the intro, and what was typed so far must stay in the form from one step to the next.
 */
export function formSteps(form: Form, options: Omit<FormOptions, 'step'>): readonly Form[] {
  if (fits(form, options)) return [form];
  const sheet = (fields: readonly Field[], first: boolean): Form => ({
    ...form,
    intro: first ? form.intro : [],
    fields,
  });
  const pages = packSections(sectionsOf(form.fields), (fields, at) => {
    const one = sheet(fields, at === 0);
    return fits(one, stepOptions(form, one, at === 0 ? 0 : 1, 99, options));
  });
  return pages.map((fields, at) => sheet(fields, at === 0));
}
