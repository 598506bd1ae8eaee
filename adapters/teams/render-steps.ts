import type { Field, FieldProblem, Form } from '../../src/message/form.ts';
import type { Card } from './render-card.ts';
import { type FormOptions, fits, renderForm, sectionsOf } from './render-form.ts';

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

/** Each sheet has its own problems on top; the first has them all, those of later sheets under their labels. */
function stepOptions(
  form: Form,
  sheet: Form,
  at: number,
  of: number,
  options: Omit<FormOptions, 'step'>,
): FormOptions {
  const own = new Set(sheet.fields.map(({ name }) => name));
  const labels = new Map(form.fields.map(({ name, label }) => [name, label]));
  const problems = (options.problems ?? []).flatMap((problem): readonly FieldProblem[] => {
    if (own.has(problem.field)) return [problem];
    const label = labels.get(problem.field);
    if (at > 0) return [];
    return [label === undefined ? problem : { ...problem, message: `${label}: ${problem.message}` }];
  });
  return { ...options, step: { at: at + 1, of }, problems, ...(at === 0 ? {} : { refusal: undefined }) };
}

/**
 * The form in as many forms as it takes, in the order of its fields. Only a section too long for any card is cut inside.
 * Only the first has the intro, and what was typed so far must stay in the form from one step to the next.
 */
export function formSteps(form: Form, options: Omit<FormOptions, 'step'>): readonly Form[] {
  if (fits(form, options)) return [form];
  const pages: (readonly Field[])[] = [];
  const sheet = (fields: readonly Field[], first: boolean): Form => ({
    ...form,
    intro: first ? form.intro : [],
    fields,
  });
  const holds = (fields: readonly Field[], first: boolean) =>
    fits(sheet(fields, first), stepOptions(form, sheet(fields, first), first ? 0 : 1, 99, options));
  const add = (fields: readonly Field[]): boolean => {
    const last = pages.at(-1);
    if (!last || !holds([...last, ...fields], pages.length === 1)) return false;
    pages.splice(-1, 1, [...last, ...fields]);
    return true;
  };
  for (const { head, fields } of sectionsOf(form.fields)) {
    const whole = head === null ? fields : [head, ...fields];
    if (add(whole)) continue;
    if (holds(whole, pages.length === 0)) pages.push(whole);
    else for (const field of whole) if (!add([field])) pages.push([field]);
  }
  return pages.map((fields, at) => sheet(fields, at === 0));
}
