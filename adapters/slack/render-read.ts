import type { FormValues } from '../../src/message/form.ts';
import { fieldNameOf } from './render-field.ts';
import { readMetadata } from './render-metadata.ts';

/** What one element of a submitted modal holds; the platform's own shape, as far as our forms use it. */
interface ElementState {
  readonly type: string;
  readonly value?: string | null;
  readonly selected_date?: string | null;
  readonly selected_time?: string | null;
  readonly selected_option?: { readonly value: string } | null;
  readonly selected_options?: readonly { readonly value: string }[];
}

/** A submitted modal, as far as it is read here. */
export interface SubmittedView {
  readonly state: { readonly values: Readonly<Record<string, Readonly<Record<string, ElementState>>>> };
  readonly private_metadata: string;
}

/**
 * The answers, exactly as typed; an element left empty gives an empty string or list. Throws TypeError for an element
 * that no form of ours has: its answer would be lost.
 */
export function readForm(view: SubmittedView): FormValues {
  const values = readMetadata(view.private_metadata)?.values ?? {};
  const answers = new Map<string, string | readonly string[]>();
  for (const block of Object.values(view.state.values))
    for (const [action, state] of Object.entries(block)) {
      const name = fieldNameOf(action);
      const answer = answerOf(state, name, (Object.hasOwn(values, name) && values[name]) || {});
      const before = answers.get(name) ?? [];
      answers.set(name, typeof answer === 'string' ? answer : [...before, ...answer]);
    }
  return Object.fromEntries(answers);
}

function answerOf(
  state: ElementState,
  name: string,
  values: Readonly<Record<string, string>>,
): string | readonly string[] {
  const own = ({ value }: { readonly value: string }) =>
    (Object.hasOwn(values, value) ? values[value] : undefined) ?? value;
  switch (state.type) {
    case 'plain_text_input':
      return state.value ?? '';
    case 'timepicker':
      return state.selected_time ?? '';
    case 'datepicker':
      return state.selected_date ?? '';
    case 'radio_buttons':
    case 'static_select':
      return state.selected_option ? own(state.selected_option) : '';
    case 'checkboxes':
    case 'multi_static_select':
      return (state.selected_options ?? []).map(own);
  }
  throw new TypeError(
    `The field "${name}" was answered with an element of the kind "${state.type}", which no form has.`,
  );
}
