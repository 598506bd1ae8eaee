import type { FormId } from './form-ids.ts';
import type { Block } from './message.ts';

/** A question sheet, the same for every surface: a board page, a modal, a dialog. */
export interface Form {
  readonly id: FormId;
  readonly about: Readonly<Record<string, string>>;
  readonly title: string;
  readonly intro: readonly Block[];
  readonly fields: readonly Field[];
  readonly submit: string;
  readonly tone: 'main' | 'danger';
}

interface FieldBase {
  /** Dotted path in the submitted values, for example "jobs.0.area". */
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly required: boolean;
}

export type Field =
  | (FieldBase & {
      readonly kind: 'number' /** A number, or what was typed in its place. */;
      readonly value?: number | string;
      readonly unit: string;
      readonly step: number;
    })
  | (FieldBase & { readonly kind: 'text'; readonly value?: string; readonly long: boolean })
  | (FieldBase & { readonly kind: 'time'; readonly value?: string })
  | (FieldBase & { readonly kind: 'date'; readonly value?: string })
  | (FieldBase & { readonly kind: 'choice'; readonly value?: string; readonly options: readonly Option[] })
  | (FieldBase & {
      readonly kind: 'choices';
      readonly value: readonly string[];
      readonly options: readonly Option[];
    })
  /**
   * A heading between groups of fields, for example "Job 2". `folded`: what follows up to the next heading is seldom
   * needed; a surface may fold it away, but not while something is filled in there or is to be mended.
   */
  | { readonly kind: 'group'; readonly name: string; readonly label: string; readonly folded?: boolean };

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** What came back: one string or several a field, exactly as typed. */
export type FormValues = Readonly<Record<string, string | readonly string[]>>;

/** A field that cannot be taken as typed, with how to mend it. */
export interface FieldProblem {
  readonly field: string;
  readonly message: string;
}
