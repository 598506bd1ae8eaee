import type { FormValues } from '../../src/message/form.ts';
import { idOf } from './render-field.ts';
import { type FieldNote, readMetadata } from './render-metadata.ts';

/**
 * The answers, exactly as typed; an input left empty gives an empty string or list. `data` is what came with the press.
 * Null when it is not from one of our forms. Throws TypeError for an answer that is no text: it would be lost.
 */
export function readForm(data: Readonly<Record<string, unknown>>): FormValues | null {
  const metadata = readMetadata(data.form);
  if (metadata === null) return null;
  return Object.fromEntries(metadata.fields.map((field) => [field.name, answerOf(field, data)]));
}

function answerOf(
  { name, many, values = {} }: FieldNote,
  data: Readonly<Record<string, unknown>>,
): string | readonly string[] {
  const id = idOf(name);
  const answer = (Object.hasOwn(data, id) ? data[id] : null) ?? '';
  if (typeof answer !== 'string')
    throw new TypeError(
      `The field "${name}" was answered with a ${typeof answer}; every input of our forms gives a text.`,
    );
  const own = (value: string) => (Object.hasOwn(values, value) ? values[value] : undefined) ?? value;
  if (many !== true) return own(answer);
  return answer === '' ? [] : answer.split(',').map(own);
}
