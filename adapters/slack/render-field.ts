import type { InputBlock, KnownBlock } from '@slack/types';
import { type ChatWords, fill } from '../../src/chat/render-words.ts';
import type { Field } from '../../src/message/form.ts';
import { dateSchema, wallTimeSchema } from '../../src/model/time.ts';
import { limits } from './limits.ts';
import { type ChoiceField, choiceElement, choicesElement, chunks, optionSet } from './render-options.ts';
import { boldLines, headingPieces, type Piece, plainText, sections } from './render-pieces.ts';
import { escapeText, textLines } from './render-text.ts';
import { cutText } from './split.ts';

type Input = Exclude<Field, { kind: 'group' }>;
type TypedField = Exclude<Input, ChoiceField>;

/** Between a field's name and the number of one of its several blocks. No field name holds it. */
const CHUNK = '~';

/** The block in which a field begins; a problem with the field is shown there. */
export const blockIdOf = (name: string): string => name;

/** The field whose answer stands in an element. */
export const fieldNameOf = (actionId: string): string => actionId.split(CHUNK)[0] ?? actionId;

/** One field as blocks: its input, and before it whatever of label, hint and options does not fit in there. */
export function fieldBlocks(field: Field, words: ChatWords): readonly KnownBlock[] {
  if (field.kind === 'group') return blocksIn(headingPieces(field.label));
  if (field.name.length > limits.blockId.most - 10)
    throw new RangeError(
      `A field's name is ${field.name.length} characters long, beginning "${cutText(field.name, 60)}".`,
    );
  const label = labelOf(field);
  const before = [
    ...(label.length > limits.inputLabel.most ? blocksIn(sections(boldLines(label, 'rest'))) : []),
    ...(field.hint !== undefined && field.hint.length > limits.inputHint.most ? said(field.hint) : []),
  ];
  if (field.kind !== 'choice' && field.kind !== 'choices')
    return [...before, input(field, field.name, label, element(field), field.required)];
  if (field.options.length === 0) return [...before, ...said(`${label}: ${words.nothingToChoose}`)];
  const { options, chosen, whole } = optionSet(field);
  const long = whole.flatMap((text) => textLines(escapeText(text), escapeText(text), 'rest'));
  const list = [
    ...before,
    ...(long.length > 0 ? blocksIn(sections([...boldLines(label, 'rest'), ...long])) : []),
  ];
  const elementOf = field.kind === 'choice' ? choiceElement : choicesElement;
  // One answer must come from one element; several may come from as many lists as it takes.
  const most = field.kind === 'choice' ? options.length : limits.selectOptions.most;
  const groups = chunks(options, most);
  return [
    ...list,
    ...groups.map((group, at) => {
      const name = at === 0 ? field.name : `${field.name}${CHUNK}${at}`;
      const part =
        groups.length === 1 ? label : `${label} (${fill(words.part, { at: at + 1, of: groups.length })})`;
      const inGroup = chosen.filter((one) => group.includes(one));
      // Nobody has to choose from every one of several lists: whether anything was chosen is asked of all together.
      const required = field.required && groups.length === 1;
      return input(
        field,
        name,
        part,
        elementOf(name, cutText(words.chooseOne, limits.placeholder.most))(group, inGroup),
        required,
      );
    }),
  ];
}

const blocksIn = (pieces: readonly Piece[]): readonly KnownBlock[] => pieces.map(({ block }) => block);
const said = (text: string) => blocksIn(sections(textLines(escapeText(text), escapeText(text), 'rest')));

function labelOf(field: Input): string {
  const label = field.kind === 'number' && field.unit !== '' ? `${field.label} (${field.unit})` : field.label;
  return label.trim() === '' ? field.name : label;
}

function input(
  field: Input,
  name: string,
  label: string,
  shown: InputBlock['element'],
  required: boolean,
): InputBlock {
  const { hint } = field;
  return {
    type: 'input',
    block_id: blockIdOf(name),
    label: plainText(cutText(label, limits.inputLabel.most)),
    element: shown,
    optional: !required,
    ...(hint === undefined || hint.trim() === ''
      ? {}
      : { hint: plainText(cutText(hint, limits.inputHint.most)) }),
  };
}

function element(field: TypedField): InputBlock['element'] {
  const action_id = field.name;
  switch (field.kind) {
    case 'number':
      // Not the platform's number input: it refuses "12,5" and "68 F", which the form can read.
      return typed(field, false);
    case 'text':
      return typed(field, field.long);
    case 'time': {
      // A picker cannot hold what is no time of day; what was typed stays to be mended.
      if ((field.value ?? '') === '') return { type: 'timepicker', action_id };
      const time = wallTimeSchema.safeParse(field.value);
      return time.success ? { type: 'timepicker', action_id, initial_time: time.data } : typed(field, false);
    }
    case 'date': {
      if ((field.value ?? '') === '') return { type: 'datepicker', action_id };
      const date = dateSchema.safeParse(field.value);
      return date.success ? { type: 'datepicker', action_id, initial_date: date.data } : typed(field, false);
    }
  }
}

function typed({ name, label, value = '' }: TypedField, multiline: boolean): InputBlock['element'] {
  const text = String(value);
  if (text.length > limits.inputText.most)
    throw new RangeError(
      `The field "${label}" (${name}) holds ${text.length} characters; the chat platform takes at most ` +
        `${limits.inputText.most}. Answer this form on the board.`,
    );
  return {
    type: 'plain_text_input',
    action_id: name,
    multiline: multiline || /[\r\n]/.test(text),
    ...(text === '' ? {} : { initial_value: text }),
  };
}
