import type { Field, Option } from '../../src/message/form.ts';
import { markedLine } from './render-text.ts';

export type ChoiceField = Extract<Field, { kind: 'choice' | 'choices' }>;

export interface OptionSet {
  readonly choices: readonly { readonly title: string; readonly value: string }[];
  /** What is chosen, as the platform writes it. */
  readonly chosen: string;
  /** Values that cannot travel as they are, by what stands in for them. */
  readonly values: Readonly<Record<string, string>>;
}

/** The options of a field as the platform takes them. */
export function optionSet(field: ChoiceField): OptionSet {
  const wanted = new Set(field.kind === 'choices' ? field.value : [field.value]);
  const values: Record<string, string> = {};
  const chosen: string[] = [];
  const choices = field.options.map((option, at) => {
    const value = standIn(option, at);
    if (value !== option.value) values[value] = option.value;
    if (wanted.has(option.value)) chosen.push(value);
    // Titles of tiles are read for marks by some clients.
    const title = markedLine(option.label) || markedLine(option.value) || '–';
    return { title, value };
  });
  return { choices, chosen: chosen.join(','), values };
}

/** "#3" for a value that is empty, has a comma or white space around it, or looks like one of these. */
const standIn = ({ value }: Option, at: number): string => (/^$|^#|,|^\s|\s$/.test(value) ? `#${at}` : value);
