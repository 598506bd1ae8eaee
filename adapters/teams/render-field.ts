import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Field } from '../../src/message/form.ts';
import { dateSchema, wallTimeSchema } from '../../src/model/time.ts';
import type { CardInput } from './render-card.ts';
import { tonePrefix } from './render-lines.ts';
import type { FieldNote } from './render-metadata.ts';
import { type ChoiceField, optionSet } from './render-options.ts';
import { headingPieces, type Piece, pieceOf, textPieces } from './render-pieces.ts';
import { plainLine } from './render-text.ts';

type Input = Exclude<Field, { kind: 'group' }>;
type TypedField = Exclude<Input, ChoiceField>;

/** More would be a long way to scroll. */
const MOST_TILES = 10;

/** No field can be taken for what an action carries itself. */
export const idOf = (name: string): string => `field:${name}`;

/** One field: what to mend, its input with its label, the hint. Over the label a hint reads as one to the field before. */
export function fieldPieces(field: Field, problems: readonly string[], words: ChatWords): readonly Piece[] {
  if (field.kind === 'group')
    return headingPieces(field.label).map(({ elements: [first, ...rest], mentions }) => ({
      elements: first ? [{ ...first, separator: true, spacing: 'Medium' as const }, ...rest] : [],
      mentions,
    }));
  const mend = problems.flatMap((text) => textPieces(`${tonePrefix('attention', words)}${text}`, true));
  const shown = inputOf(field, words);
  if (shown === null)
    return [...mend, ...textPieces(`${labelOf(field)}: ${words.nothingToChoose}`), ...hintPieces(field)];
  return [...mend, pieceOf(shown), ...hintPieces(field)];
}

/** Not in the input: there it would be gone with the first letter. Close under it, or it reads as one to the next field. */
const hintPieces = ({ hint = '' }: Input): readonly Piece[] =>
  textPieces(hint).map(({ elements, mentions }) => ({
    elements: elements.map((element) => ({ ...element, spacing: 'Small' as const })),
    mentions,
  }));

export function labelOf(field: Input): string {
  const label = field.kind === 'number' && field.unit !== '' ? `${field.label} (${field.unit})` : field.label;
  return label.trim() === '' ? field.name : label;
}

/** What has to be known to read the answer; null for what has no input. */
export function noteOf(field: Field): FieldNote | null {
  if (field.kind === 'group') return null;
  const { name, kind } = field;
  if (kind !== 'choice' && kind !== 'choices') return { name };
  if (field.options.length === 0) return null;
  const { values } = optionSet(field);
  return {
    name,
    ...(kind === 'choices' ? { many: true } : {}),
    ...(Object.keys(values).length === 0 ? {} : { values: { ...values } }),
  };
}

function inputOf(field: Input, words: ChatWords): CardInput | null {
  const label = plainLine(labelOf(field));
  const base = {
    id: idOf(field.name),
    label,
    isRequired: field.required,
    // Said by the platform when a required input is left empty.
    ...(field.required ? { errorMessage: plainLine(`${words.formProblems} ${label}`) } : {}),
  };
  if (field.kind !== 'choice' && field.kind !== 'choices') return { ...base, ...typedOf(field) };
  if (field.options.length === 0) return null;
  const { choices, chosen } = optionSet(field);
  return {
    ...base,
    type: 'Input.ChoiceSet',
    isMultiSelect: field.kind === 'choices',
    style: choices.length <= MOST_TILES ? 'expanded' : 'compact',
    wrap: true,
    placeholder: plainLine(words.chooseOne),
    choices,
    ...(chosen === '' ? {} : { value: chosen }),
  };
}

type Typed =
  | { readonly type: 'Input.Text'; readonly isMultiline: boolean; readonly value?: string }
  | { readonly type: 'Input.Date' | 'Input.Time'; readonly value?: string };

function typedOf(field: TypedField): Typed {
  const text = String(field.value ?? '');
  const value = text === '' ? {} : { value: text };
  switch (field.kind) {
    case 'number':
      // Not the platform's number input: it refuses "12,5" and "68 F", which the form can read.
      return typed(text, false);
    case 'text':
      return typed(text, field.long);
    case 'time':
      // A picker cannot hold what is no time of day; what was typed stays to be mended.
      return text === '' || wallTimeSchema.safeParse(text).success
        ? { type: 'Input.Time', ...value }
        : typed(text, false);
    case 'date':
      return text === '' || dateSchema.safeParse(text).success
        ? { type: 'Input.Date', ...value }
        : typed(text, false);
  }
}

const typed = (text: string, long: boolean): Typed => ({
  type: 'Input.Text',
  isMultiline: long || /[\r\n]/.test(text),
  ...(text === '' ? {} : { value: text }),
});
