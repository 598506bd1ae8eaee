import type { z } from 'zod';
import { fieldNotes } from './fields.ts';
import type { EntryKind, SchemaNode } from './json-schemas.ts';
import { nearest } from './nearest.ts';
import { schemaAt, suggestion, wanted } from './wanted.ts';
import type { Path } from './yaml-file.ts';

/** Stands in for zod's own sentences, so that a schema's sentences can be told from them. */
export const NO_WORDS = '\u0000no words of its own';

export interface IssuePlace {
  readonly kind: EntryKind;
  readonly schema: SchemaNode;
  /** Path inside the entry. */
  readonly path: Path;
  /** The value that stands there; undefined when the field is missing. */
  readonly value: unknown;
  /** As it was typed, quotes included. */
  readonly source: string;
}

export interface IssueWords {
  readonly message: string;
  readonly write: string;
}

/** What is wrong with a value that a schema refused, and what to write instead. Unknown fields: `unknownField`. */
export function issueWords(issue: z.core.$ZodIssue, place: IssuePlace): IssueWords {
  const write = suggestion(place.kind, place.schema, place.path);
  if (issue.message !== NO_WORDS) return ownWords(issue, write);
  if (place.value === undefined) return { message: 'this field is missing', write: example(place) ?? write };
  if (place.value === null) return { message: 'nothing is written after this field', write };
  switch (issue.code) {
    case 'invalid_type':
      return wrongType(issue.expected, place, write);
    case 'invalid_value':
    case 'invalid_union':
      return wrongChoice(place, write);
    case 'too_small':
      return { message: tooSmall(issue, String(issue.minimum), issue.inclusive === true), write };
    case 'too_big':
      return { message: tooBig(issue, String(issue.maximum), issue.inclusive === true), write };
    case 'invalid_format':
      return { message: 'this is not written the way it must be', write };
    case 'unrecognized_keys':
    case 'not_multiple_of':
    case 'invalid_key':
    case 'invalid_element':
    case 'custom':
      return { message: 'this is not accepted', write };
  }
}

/** A field that the schema does not have. */
export function unknownField(
  key: string,
  schema: SchemaNode | null,
): IssueWords & { readonly meant: string | null } {
  const known = Object.keys(schema?.properties ?? {});
  const meant = nearest(key, known);
  const all = `the fields here are ${known.join(', ')}`;
  return {
    meant,
    message: `there is no field "${key}" here`,
    write: meant === null ? `nothing, take it out; ${all}` : `${meant}, if that was meant; ${all}`,
  };
}

/** The schema's own sentence: "what is wrong; what to write", or one of the two. */
function ownWords(issue: z.core.$ZodIssue, write: string): IssueWords {
  const parts = issue.message.split('; ');
  const rest = parts.slice(1).join('; ');
  if (rest !== '') return { message: parts[0] ?? '', write: rest.replace(/^(write|use) /, '') };
  if (issue.code === 'invalid_format')
    return {
      message: 'this is not written the way it must be',
      write: issue.message.replace(/^(write|use) /, ''),
    };
  return { message: issue.message, write };
}

function example(place: IssuePlace): string | null {
  const name = place.path.at(-1);
  const note = fieldNotes[[place.kind, ...place.path.filter((part) => typeof part === 'string')].join('.')];
  if (!note || typeof name !== 'string') return null;
  return `${name}: ${note.example} (${note.about}; ${wanted(schemaAt(place.schema, place.path))})`;
}

function wrongType(expected: string, place: IssuePlace, write: string): IssueWords {
  const tip = slip(expected, place);
  const names: Readonly<Record<string, string>> = {
    number: 'a number is expected here',
    int: 'a whole number is expected here',
    string: 'text is expected here',
    boolean: 'true or false is expected here',
    array: 'a list is expected here',
    object: 'a group of fields is expected here',
  };
  return {
    message: names[expected] ?? 'something else is expected here',
    write: tip === null ? write : `${tip}; ${write}`,
  };
}

/** The slips people make between text, numbers and lists. */
function slip(expected: string, place: IssuePlace): string | null {
  const { value, source } = place;
  if (expected === 'string' && (typeof value === 'number' || typeof value === 'boolean'))
    return `"${source}", in quotes`;
  if (expected === 'array' && (typeof value === 'string' || typeof value === 'number'))
    return `[${source}], in brackets`;
  if (typeof value !== 'string') return null;
  if (expected === 'boolean') {
    if (/^(yes|y|on|true)$/i.test(value)) return 'true';
    return /^(no|n|off|false)$/i.test(value) ? 'false' : null;
  }
  if (expected !== 'number' && expected !== 'int') return null;
  const text = value.trim().replace('−', '-');
  if (/^-?\d+(\.\d+)?$/.test(text)) return `${text}, without quotes`;
  if (/^-?\d+,\d+$/.test(text)) return `${text.replace(',', '.')}, with a point`;
  const withUnit = /^(-?\d+(?:[.,]\d+)?)\s*[^\d\s.,:]\S*$/.exec(text)?.[1];
  return withUnit === undefined ? null : `${withUnit.replace(',', '.')}, the number alone`;
}

function wrongChoice(place: IssuePlace, write: string): IssueWords {
  const node = schemaAt(place.schema, place.path);
  const choices = [...(node?.enum ?? []), ...(node?.anyOf ?? []).flatMap((one) => one.const ?? [])].map(
    String,
  );
  const meant = nearest(String(place.value), choices);
  const message = 'this is not one of the values allowed here';
  return { message, write: meant === null ? write : `${meant}, if that was meant; ${write}` };
}

function tooSmall(issue: { origin: string }, least: string, inclusive: boolean): string {
  if (issue.origin === 'string') return 'the text is empty';
  if (issue.origin === 'array')
    return least === '1' ? 'the list is empty' : `the list needs at least ${least} entries`;
  return inclusive ? `this is less than ${least}` : `this must be more than ${least}`;
}

function tooBig(issue: { origin: string }, most: string, inclusive: boolean): string {
  if (issue.origin === 'string') return `the text is longer than ${most} characters`;
  if (issue.origin === 'array') return `the list has more than ${most} entries`;
  return inclusive ? `this is more than ${most}` : `this must be less than ${most}`;
}
