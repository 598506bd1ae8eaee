import type { Field, Form, FormValues } from '../message/form.ts';
import type { Block } from '../message/message.ts';
import type { CommandInput } from '../model/command.ts';
import type { DayEntry } from '../model/day-entry.ts';
import type { PersonId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import type { SitePack } from '../model/site.ts';
import type { Instant } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';
import type { FieldReader } from './field.ts';

export interface FormContext {
  readonly pack: SitePack;
  readonly shift: Shift | null;
  /** The latest earlier shift, for "same as yesterday". */
  readonly previous: Shift | null;
  /** The pack's example day, for the very first day form. */
  readonly example?: DayEntry | null;
  readonly now: Instant;
  readonly texts: Texts;
  readonly viewer: PersonId | null;
}

export interface OpenForm extends FormContext {
  readonly about: Readonly<Record<string, string>>;
}

export interface FormParts {
  readonly title: string;
  readonly intro?: readonly Block[];
  readonly fields: readonly Field[];
  readonly submit: string;
  readonly tone?: Form['tone'];
}

/** One form: what it asks, and what command the answers make. `gone` is said when it does not fit the shift any more. */
export interface FormDef {
  build(open: OpenForm): FormParts | { readonly gone: string };
  read(reader: FieldReader, open: OpenForm, values: FormValues): CommandInput;
}

export const textField = (
  name: string,
  label: string,
  required: boolean,
  long = true,
  value?: string,
): Field => ({
  kind: 'text',
  name,
  label,
  required,
  long,
  ...(value === undefined ? {} : { value }),
});

export const numberField = (
  name: string,
  label: string,
  unit: string,
  more: {
    readonly required?: boolean;
    readonly value?: number | undefined;
    readonly step?: number;
    readonly hint?: string;
  } = {},
): Field => ({
  kind: 'number',
  name,
  label,
  unit,
  required: more.required ?? true,
  step: more.step ?? 0.1,
  ...(more.value === undefined ? {} : { value: more.value }),
  ...(more.hint === undefined ? {} : { hint: more.hint }),
});
