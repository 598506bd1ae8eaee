import type { ErrorCode } from 'yaml';

interface Words {
  readonly message: string;
  readonly write: string;
}

/** What a slip in the punctuation of a YAML file means to somebody who never heard of YAML. */
const words = {
  ALIAS_PROPS: {
    message: 'a value copied with * cannot have a name',
    write: 'the value itself, written out in full',
  },
  BAD_ALIAS: {
    message: 'a value is copied with * from nowhere',
    write: 'the value itself, written out in full',
  },
  BAD_COLLECTION_TYPE: {
    message: 'a list or a group does not fit its mark',
    write: 'the list or group without "!"',
  },
  BAD_DIRECTIVE: {
    message: 'a line beginning with % means something else here',
    write: 'the line without "%"',
  },
  BAD_DQ_ESCAPE: {
    message: 'a backslash in double quotes means something else',
    write: "the text in single quotes, for example 'C:\\x'",
  },
  BAD_INDENT: {
    message: 'the line is not indented like its neighbours, or a bracket is not closed',
    write:
      'the same number of spaces as the line it belongs with, and a closing bracket for each opening one',
  },
  BAD_PROP_ORDER: { message: 'the marks before a value are in a wrong order', write: 'the value alone' },
  BAD_SCALAR_START: {
    message: 'a value cannot begin with this character',
    write: 'the value in quotes, for example "@shed"',
  },
  BLOCK_AS_IMPLICIT_KEY: {
    message: 'two fields on one line, or the line below is indented too far',
    write: 'one field a line, indented like its neighbours; a text with ": " in it goes in quotes',
  },
  BLOCK_IN_FLOW: {
    message: 'inside { } or [ ] everything is written on one line style',
    write: 'the entries with commas between them, for example { c: 23, minutes: 120 }',
  },
  DUPLICATE_KEY: { message: 'this field is written twice', write: 'it once, with the value that is right' },
  IMPOSSIBLE: { message: 'the text cannot be read here', write: 'the line again, by hand' },
  KEY_OVER_1024_CHARS: {
    message: 'a field name is too long',
    write: 'a field name, a colon, a space, the value',
  },
  MISSING_CHAR: {
    message: 'a colon, a quote or a bracket is missing',
    write: 'a field name, a colon, a space and the value; close every quote and bracket',
  },
  MULTILINE_IMPLICIT_KEY: {
    message: 'a colon, a quote or a bracket is missing on this line or the one before',
    write: 'a field name, a colon, a space and the value, all on one line',
  },
  MULTIPLE_ANCHORS: { message: 'a value has two names with &', write: 'the value alone' },
  MULTIPLE_DOCS: {
    message: 'the line --- begins a second document',
    write: 'one document in a file: take "---" out',
  },
  MULTIPLE_TAGS: { message: 'a value has two marks with !', write: 'the value alone' },
  NON_STRING_KEY: {
    message: 'a field name is a list or a group',
    write: 'a field name, a colon, a space, the value',
  },
  RESOURCE_EXHAUSTION: {
    message: 'this is nested too deeply to be read',
    write: 'no more than a few levels of brackets or of indented lines',
  },
  TAB_AS_INDENT: {
    message: 'a tab stands where only spaces may stand',
    write: 'two spaces for each step to the right (set your editor to spaces)',
  },
  TAG_RESOLVE_FAILED: { message: 'a value is marked with an unknown type (!)', write: 'the value alone' },
  UNEXPECTED_TOKEN: {
    message: 'something stands here that does not belong',
    write: 'one field a line; a text with : # { } [ ] , in it goes in quotes',
  },
} satisfies Record<ErrorCode, Words>;

const lookup: Readonly<Record<string, Words | undefined>> = words;

/** A code that a newer parser brings falls back to the parser's own sentence. */
export function yamlWords(code: string, message: string): Words {
  return lookup[code] ?? { message, write: 'the line again, one field, a colon, a space and the value' };
}
