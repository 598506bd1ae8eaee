import { expect } from 'vitest';
import { type FormOptions, renderForm } from '../../adapters/slack/render-form.ts';
import { defaultChatWords } from '../../src/chat/render-words.ts';
import type { Field, Form } from '../../src/message/form.ts';
import { everyField } from '../board/fakes.ts';
import { inputsOf, viewFaults } from './render-form-check.ts';

export const options: FormOptions = {
  person: (_, name) => name,
  when: (_, clock) => clock,
  words: defaultChatWords,
};
export const LONG = 'Wieńczysława Anastázie '.repeat(7).slice(0, 150).trim();

export function render(form: Form, more: Partial<FormOptions> = {}) {
  const { view } = renderForm(form, { ...options, ...more });
  expect(viewFaults(view)).toEqual([]);
  return view;
}
export const withFields = (...fields: readonly Field[]): Form => ({ ...everyField, fields });
export const elementsOf = (...fields: readonly Field[]) =>
  inputsOf(render(withFields(...fields))).map(({ element }) => element);
export const many = (count: number, label = (at: number) => `Name ${at}`) =>
  Array.from({ length: count }, (_, at) => ({ value: `p${at}`, label: label(at) }));
export const choice = (count: number, value?: string): Field => ({
  kind: 'choice',
  name: 'one',
  label: 'Who',
  required: true,
  options: many(count),
  ...(value === undefined ? {} : { value }),
});
export const choices = (count: number, value: readonly string[] = []): Field => ({
  kind: 'choices',
  name: 'some',
  label: 'Who',
  required: true,
  options: many(count),
  value,
});
