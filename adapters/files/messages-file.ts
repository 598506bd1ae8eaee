import type { Units } from '../../src/units/quantity.ts';
import {
  type Compiled,
  type CompiledText,
  compileText,
  type Guard,
  unguarded,
  type Writing,
} from './compile-text.ts';
import { nearest } from './nearest.ts';
import { type PackProblem, shorten } from './problem.ts';
import { readText } from './read-text.ts';
import { type Path, parseYaml, type ReadYaml, type YamlFile } from './yaml-file.ts';

/** Text id → names of the placeholders it is given. */
export type DeclaredTexts = Readonly<Record<string, readonly string[]>>;

export interface Messages {
  readonly texts: ReadonlyMap<string, CompiledText>;
  readonly problems: readonly PackProblem[];
  /** Ids without words in this file. */
  readonly missing: readonly string[];
}

interface ReadBefore {
  readonly file: string;
  readonly text: string;
  readonly declared: DeclaredTexts;
  readonly messages: Messages;
}

/** The words read last in each language and in its units: several parts of one start read the same, and it takes a while. */
const readBefore = new Map<string, ReadBefore>();

/** `messages.yaml` of one language: a map of text ids, flat or nested (nested names are joined with dots). */
export function readMessages(
  file: string,
  { locale, direction }: Writing,
  declared: DeclaredTexts,
  guard: Guard = unguarded,
  units: Units = 'metric',
): Messages {
  const read = readText(file);
  if (!read.ok) return { texts: new Map(), problems: [read.problem], missing: Object.keys(declared) };
  const { text } = read;
  const key = [locale, direction, units].join(' ');
  const before = readBefore.get(key);
  const isSame = before?.file === file && before.text === text && before.declared === declared;
  const messages = isSame
    ? before.messages
    : messagesIn(parseYaml(file, text), { locale, direction }, declared, units);
  readBefore.set(key, { file, text, declared, messages });
  const guarded = [...messages.texts].map(([id, one]) => [id, guard(one, `${file}: ${id}`)] as const);
  return { ...messages, texts: new Map(guarded) };
}

function messagesIn(
  { yaml, problems }: ReadYaml,
  writing: Writing,
  declared: DeclaredTexts,
  units: Units,
): Messages {
  const texts = new Map<string, CompiledText>();
  const found = yaml
    ? [
        ...problems,
        ...leaves(yaml).flatMap((leaf) =>
          take(yaml, leaf, declared, texts, (text) => compileText(text, writing, units)),
        ),
      ]
    : problems;
  // A text with a mistake in it is not missing as well.
  const seen = new Set([...texts.keys(), ...found.map((problem) => problem.field)]);
  const missing = Object.keys(declared).filter((id) => !seen.has(id));
  return { texts, problems: found, missing };
}

interface Leaf {
  readonly id: string;
  readonly path: Path;
  readonly value: unknown;
}

function leaves(yaml: YamlFile): readonly Leaf[] {
  const below = (value: unknown, path: Path): readonly Leaf[] =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.entries(value).flatMap(([key, one]) => below(one, [...path, key]))
      : [{ id: path.join('.'), path, value }];
  return yaml.data === null ? [] : below(yaml.data, []);
}

function take(
  yaml: YamlFile,
  leaf: Leaf,
  declared: DeclaredTexts,
  texts: Map<string, CompiledText>,
  compile: (text: string) => Compiled,
): readonly PackProblem[] {
  const { id, path, value } = leaf;
  const spot = yaml.spot(path);
  const problem = (message: string, write: string, line = spot.line, column = spot.column): PackProblem[] => [
    { file: yaml.file, line, column, field: id, found: shorten(String(value ?? '')), message, write },
  ];
  const given = Object.hasOwn(declared, id) ? declared[id] : undefined;
  if (!given) {
    const meant = nearest(id, Object.keys(declared));
    const key = yaml.keySpot(path);
    const write = meant === null ? 'nothing, take it out' : `${meant}, if that was meant; or take it out`;
    return problem('no part of the program asks for this text', write, key.line, key.column);
  }
  if (texts.has(id)) return problem('this text is written twice', 'it once');
  if (typeof value !== 'string') return problem('text is expected here', 'the words, in quotes');
  if (value.trim() === '')
    return problem('the text is empty', 'the words; without them people would see nothing');
  const compiled = compile(value);
  if (!compiled.ok) {
    const place = inside(spot, value, compiled.fault.offset);
    return problem(compiled.fault.message, compiled.fault.write, place.line, place.column);
  }
  texts.set(id, compiled.text);
  return placeholderFaults(compiled.text, given).flatMap((fault) => problem(fault.message, fault.write));
}

/** Placeholders that do not match what the program gives. */
export function placeholderFaults(
  text: CompiledText,
  given: readonly string[],
): readonly { readonly message: string; readonly write: string }[] {
  const list =
    given.length === 0 ? 'none is given' : `given are ${given.map((name) => `{${name}}`).join(', ')}`;
  return [
    ...text.placeholders
      .filter((name) => !given.includes(name))
      .map((name) => {
        const meant = nearest(name, given);
        return {
          message: `nothing is given for the placeholder {${name}}`,
          write: `${meant === null ? 'the text without it' : `{${meant}}, if that was meant`}; ${list}`,
        };
      }),
    ...given
      .filter((name) => !text.placeholders.includes(name))
      .map((name) => ({
        message: `the placeholder {${name}} is not used`,
        write: `{${name}} somewhere in the text`,
      })),
  ];
}

/** Line and column of a place inside a text. Exact on one line and in block texts (|); else where the text begins. */
function inside(
  spot: { readonly line: number; readonly column: number; readonly source: string },
  value: string,
  offset: number,
): { readonly line: number; readonly column: number } {
  const before = value.slice(0, offset).split('\n');
  if (spot.source.startsWith('|')) {
    const indent = /\n( *)\S/.exec(spot.source)?.[1]?.length ?? 0;
    return { line: spot.line + before.length, column: indent + (before.at(-1)?.length ?? 0) + 1 };
  }
  if (spot.source.startsWith('>') || spot.source.includes('\n')) return spot;
  return { line: spot.line, column: spot.column + (/^["']/.test(spot.source) ? 1 : 0) + offset };
}
