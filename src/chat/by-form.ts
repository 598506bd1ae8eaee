import { buildForm, readForm } from '../forms/forms.ts';
import type { FormRef } from '../message/action.ts';
import type { FormValues } from '../message/form.ts';
import { said } from './fold.ts';
import { type Typed, type TypedContext, wrong } from './typed.ts';

/**
 * Hands what was typed to the form that a button would have opened: the same units, limits and sentences, so that a
 * figure means the same however it came in. `typed`: what stood in the text for a field, to be said back.
 */
export function byForm(
  form: FormRef,
  values: FormValues,
  context: TypedContext,
  typed: Readonly<Record<string, string>> = {},
): Typed {
  const open = { ...context, previous: null };
  const read = readForm(form, values, open);
  if (read.ok) return { kind: 'do', command: read.command };
  const [first] = read.problems;
  if (!first) throw new Error(`the form ${form.id} refused typed values without a reason`);
  const value = values[first.field];
  const back = typed[first.field] ?? (typeof value === 'string' && value !== '' ? value : null);
  const what = back === null ? labelOf(form, first.field, context) : said(back);
  return wrong(context.texts.say('chat.bad-value', { typed: what, why: first.message }));
}

/** What the form calls a field. @throws when there is no such form now. */
export function labelOf(form: FormRef, field: string, context: TypedContext): string {
  const built = buildForm(form, { ...context, previous: null });
  const found = built.ok ? built.form.fields.find(({ name }) => name === field) : undefined;
  return found?.label ?? field;
}
