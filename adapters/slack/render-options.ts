import type { InputBlock, PlainTextOption } from '@slack/types';
import type { Field, Option } from '../../src/message/form.ts';
import { limits } from './limits.ts';
import { plainText } from './render-pieces.ts';
import { shortened } from './split.ts';

/** The element of a field with options, for some of them: all, or one group of many. */
type ElementOf = (
  options: readonly PlainTextOption[],
  chosen: readonly PlainTextOption[],
) => InputBlock['element'];

export interface OptionSet {
  readonly options: readonly PlainTextOption[];
  readonly chosen: readonly PlainTextOption[];
  /** Labels that had to be cut, whole, under the number they have in the list. */
  readonly whole: readonly string[];
  /** Values the platform could not take, by what stands in for them. */
  readonly values: Readonly<Record<string, string>>;
}

export type ChoiceField = Extract<Field, { kind: 'choice' | 'choices' }>;

/** The options of a field as the platform takes them. */
export function optionSet(field: ChoiceField): OptionSet {
  const { short, whole } = shortened(
    field.options.map(({ label, value }) => (label.trim() === '' ? value : label)),
    limits.optionText.most,
  );
  const wanted = new Set(field.kind === 'choices' ? field.value : [field.value]);
  const values: Record<string, string> = {};
  const options = field.options.map((option, at): PlainTextOption => {
    const value = standIn(option, at);
    if (value !== option.value) values[value] = option.value;
    return { text: plainText(short[at] ?? '–'), value };
  });
  const chosen = options.filter((_, at) => wanted.has(field.options[at]?.value));
  return { options, chosen, whole, values };
}

/** "#3" for a value that is empty, too long, or looks like one of these. */
function standIn({ value }: Option, at: number): string {
  return value === '' || value.startsWith('#') || value.length > limits.optionValue.most ? `#${at}` : value;
}

/** One answer: a few options as tiles, more in a list, more than a list holds in groups of it. */
export const choiceElement =
  (name: string, chooseOne: string): ElementOf =>
  (options, [chosen]) => {
    const initial = chosen ? { initial_option: chosen } : {};
    if (options.length <= limits.radioOptions.most)
      return { type: 'radio_buttons', action_id: name, options: [...options], ...initial };
    const select = {
      type: 'static_select',
      action_id: name,
      placeholder: plainText(chooseOne),
      ...initial,
    } as const;
    const most = limits.selectOptions.most;
    if (options.length <= most) return { ...select, options: [...options] };
    return {
      ...select,
      option_groups: chunks(options, most).map((group, at) => ({
        label: plainText(`${at * most + 1}–${at * most + group.length}`),
        options: [...group],
      })),
    };
  };

/** Several answers: a few options as boxes to tick, more in a list. */
export const choicesElement =
  (name: string, chooseOne: string): ElementOf =>
  (options, chosen) => {
    const initial = chosen.length > 0 ? { initial_options: [...chosen] } : {};
    if (options.length <= limits.checkboxOptions.most)
      return { type: 'checkboxes', action_id: name, options: [...options], ...initial };
    return {
      type: 'multi_static_select',
      action_id: name,
      placeholder: plainText(chooseOne),
      options: [...options],
      ...initial,
    };
  };

export function chunks<T>(list: readonly T[], most: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(list.length / most) }, (_, at) =>
    list.slice(at * most, (at + 1) * most),
  );
}
