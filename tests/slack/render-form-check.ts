import type { InputBlock, KnownBlock, ModalView } from '@slack/types';
import type { SubmittedView } from '../../adapters/slack/render-read.ts';
import type { Form, FormValues } from '../../src/message/form.ts';
import { platformFaults, readBlock } from './render-check.ts';

export const blocksOf = (view: ModalView): readonly KnownBlock[] =>
  view.blocks.filter((block): block is KnownBlock => 'type' in block);

export const inputsOf = (view: ModalView): readonly InputBlock[] =>
  blocksOf(view).flatMap((block) => (block.type === 'input' ? [block] : []));

export const readView = (view: ModalView): string =>
  blocksOf(view)
    .map((block) =>
      block.type === 'input' ? `${block.label.text}\n${block.hint?.text ?? ''}` : readBlock(block),
    )
    .join('\n');

type State = SubmittedView['state']['values'][string][string];

/** What the platform sends back for an input that nobody touched. */
function untouchedState({ element }: InputBlock): State {
  const { type } = element;
  const option = (one: { readonly value?: string } | undefined) =>
    one?.value === undefined ? null : { value: one.value };
  switch (element.type) {
    case 'plain_text_input':
      return { type, value: element.initial_value ?? null };
    case 'timepicker':
      return { type, selected_time: element.initial_time ?? null };
    case 'datepicker':
      return { type, selected_date: element.initial_date ?? null };
    case 'radio_buttons':
    case 'static_select':
      return { type, selected_option: option(element.initial_option) };
    case 'checkboxes':
    case 'multi_static_select':
      return { type, selected_options: (element.initial_options ?? []).flatMap((one) => option(one) ?? []) };
  }
  throw new Error(`this test does not know the element ${type}`);
}

/** A modal as it is submitted, with what a person changed by block id. */
export function submitted(
  view: ModalView,
  changed: Readonly<Record<string, Partial<State>>> = {},
): SubmittedView {
  const values = Object.fromEntries(
    inputsOf(view).map((block) => {
      const id = block.block_id ?? '';
      const action = 'action_id' in block.element ? (block.element.action_id ?? '') : '';
      return [id, { [action]: { ...untouchedState(block), ...changed[id] } }];
    }),
  );
  return { state: { values }, private_metadata: view.private_metadata ?? '' };
}

/** What a form holds as it is shown; a choice that is none of the options is not held by any surface. */
export function shownValues(form: Form): FormValues {
  return Object.fromEntries(
    form.fields.flatMap((field): readonly (readonly [string, string | readonly string[]])[] => {
      if (field.kind === 'group') return [];
      if (field.kind !== 'choice' && field.kind !== 'choices')
        return [[field.name, String(field.value ?? '')]];
      const values = field.options.map(({ value }) => value);
      if (values.length === 0) return [];
      if (field.kind === 'choice')
        return [[field.name, values.includes(field.value ?? '') ? (field.value ?? '') : '']];
      return [[field.name, values.filter((one) => field.value.includes(one))]];
    }),
  );
}

/** What the platform would refuse in a modal. Figures as in the reference of the platform, not from the renderer. */
export function viewFaults(view: ModalView): readonly string[] {
  const blocks = blocksOf(view);
  const ids = blocks.flatMap(({ block_id }) => (block_id === undefined ? [] : [block_id]));
  const faults: string[] = [...platformFaults('modal', view)];
  const within = (what: string, text: string | undefined, most: number) => {
    if (text !== undefined && (text.length < 1 || text.length > most))
      faults.push(`${what}: ${text.length} of ${most}`);
  };
  within('title', view.title.text, 24);
  within('submit', view.submit?.text, 24);
  within('close', view.close?.text, 24);
  within('metadata', view.private_metadata, 3000);
  if (blocks.length < 1 || blocks.length > 100) faults.push(`${blocks.length} blocks`);
  if (new TextEncoder().encode(JSON.stringify(view)).length > 250_000) faults.push('too many bytes');
  if (new Set(ids).size < ids.length) faults.push('block ids');
  for (const { label, hint, element } of inputsOf(view)) {
    within('label', label.text, 2000);
    within('hint', hint?.text, 2000);
    const options = 'options' in element ? (element.options ?? []) : [];
    const groups = 'option_groups' in element ? (element.option_groups ?? []) : [];
    const most = element.type === 'checkboxes' || element.type === 'radio_buttons' ? 10 : 100;
    if ('options' in element && (options.length < 1 || options.length > most))
      faults.push(`${element.type}: ${options.length} options`);
    for (const group of groups)
      if (group.options.length < 1 || group.options.length > 100)
        faults.push(`group of ${group.options.length}`);
    const all = [...options, ...groups.flatMap((group) => group.options)];
    for (const { text, value } of all) {
      within('option', text.text, 75);
      within('option value', value ?? '', 75);
    }
    const values = all.map(({ value }) => value);
    if (new Set(values).size < values.length) faults.push('option values');
    if (element.type === 'plain_text_input') within('initial value', element.initial_value, 3000);
    if ('initial_options' in element && element.initial_options?.length === 0)
      faults.push('no initial options');
  }
  return faults;
}
