import { fieldNotes } from './fields.ts';
import type { EntryKind, SchemaNode } from './json-schemas.ts';
import { oneOf } from './one-of.ts';
import type { Path } from './yaml-file.ts';

/** The schema of the field at `path`, null where there is none. */
export function schemaAt(root: SchemaNode, path: Path): SchemaNode | null {
  let node: SchemaNode | undefined = root;
  for (const part of path) {
    if (typeof part === 'number') node = node?.items;
    else if (node?.properties && Object.hasOwn(node.properties, part)) node = node.properties[part];
    else node = node?.additionalProperties || undefined;
  }
  return node ?? null;
}

/** What may stand there, in words: "a number from 3 to 20", "one of air, electric, engine". */
export function wanted(node: SchemaNode | null): string {
  if (!node) return 'nothing';
  const choices = node.enum ?? node.anyOf?.flatMap((one) => (one.const === undefined ? [] : [one.const]));
  if (node.const !== undefined) return String(node.const);
  if (choices && choices.length > 0) return oneOf(choices);
  if (node.type === 'number' || node.type === 'integer') return numberWords(node);
  if (node.type === 'boolean') return 'true or false';
  if (node.type === 'array')
    return node.maxItems === undefined ? 'a list' : `a list of at most ${node.maxItems}`;
  if (node.properties) return `a group of the fields ${Object.keys(node.properties).join(', ')}`;
  return node.maxLength === undefined ? 'text' : `text of at most ${node.maxLength} characters`;
}

function numberWords(node: SchemaNode): string {
  const a = node.type === 'integer' ? 'a whole number' : 'a number';
  const most = node.maximum;
  if (node.exclusiveMinimum !== undefined)
    return `${a} above ${signed(node.exclusiveMinimum)}${most === undefined ? '' : `, at most ${signed(most)}`}`;
  if (node.minimum !== undefined && most !== undefined)
    return `${a} from ${signed(node.minimum)} to ${signed(most)}`;
  if (node.minimum !== undefined) return `${a}, at least ${signed(node.minimum)}`;
  return most === undefined ? a : `${a}, at most ${signed(most)}`;
}

function signed(value: number): string {
  return value < 0 ? `−${-value}` : String(value);
}

/** What to write at `path`: what may stand there, an example, and what the field is for. */
export function suggestion(kind: EntryKind, root: SchemaNode, path: Path): string {
  const names = path.filter((part) => typeof part === 'string');
  const note = fieldNotes[[kind, ...names].join('.')];
  const what = wanted(schemaAt(root, path));
  if (!note) return what;
  return `${what}, such as ${names.at(-1)}: ${note.example} (${note.about})`;
}
