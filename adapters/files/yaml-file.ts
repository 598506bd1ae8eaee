import {
  type Document,
  isCollection,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
} from 'yaml';
import { type PackProblem, shorten } from './problem.ts';
import { readText } from './read-text.ts';
import { forbidden } from './yaml-forbidden.ts';
import { yamlWords } from './yaml-words.ts';

export type Path = readonly (string | number)[];

/** Where something stands in a file, and what stands there. */
export interface Spot {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  /** The characters as they stand in the file, quotes included. */
  readonly source: string;
}

export interface YamlFile {
  readonly file: string;
  /** Plain data; null for a file with nothing in it. */
  readonly data: unknown;
  /** The value at `path`; when nothing is there, the nearest thing around it, with nothing found. */
  spot(path: Path): Spot;
  /** The name of the field at `path`, for a field that should not be there. */
  keySpot(path: Path): Spot;
}

export interface ReadYaml {
  /** Null when the file is missing or its punctuation is so broken that its fields cannot be trusted. */
  readonly yaml: YamlFile | null;
  readonly missing: boolean;
  readonly problems: readonly PackProblem[];
}

/** `secret`: what stands in the file is never repeated in a problem. */
export interface YamlOptions {
  readonly secret?: boolean;
}

export function readYaml(file: string, options: YamlOptions = {}): ReadYaml {
  const read = readText(file);
  if (!read.ok) return { yaml: null, missing: read.missing, problems: [read.problem] };
  return parseYaml(file, read.text, options);
}

/**
 * YAML 1.2, core schema (JSON is part of it): a date or 06:40 stays text. Repeated names, tabs, anchors, aliases and
 * tags are problems: a value that stands where it is used can be pointed at, and cannot be multiplied.
 */
export function parseYaml(file: string, text: string, options: YamlOptions = {}): ReadYaml {
  const lines = new LineCounter();
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const shown = (words: string) => (options.secret && words !== '' ? '(not shown)' : shorten(words));
  let trusted = true;
  const problems: PackProblem[] = [];
  const add = (offset: number, found: string, message: string, write: string) =>
    problems.push({ file, ...at(offset), field: '', found: shown(found), message, write });

  const document = parsed(text, lines);
  if (!document || document.errors.some((error) => error.code === 'RESOURCE_EXHAUSTION')) {
    add(0, '', yamlWords('RESOURCE_EXHAUSTION', '').message, yamlWords('RESOURCE_EXHAUSTION', '').write);
    return { yaml: null, missing: false, problems };
  }
  const tabs = document.errors.filter((error) => error.code === 'TAB_AS_INDENT');
  // A tab makes the lines after it look wrong as well.
  for (const error of tabs.length > 0 ? tabs : document.errors) {
    const words = yamlWords(error.code, error.message);
    const line = at(error.pos[0]).line;
    // One slip in the punctuation often makes several errors on a line; the first is the cause.
    if (error.code !== 'DUPLICATE_KEY' && problems.some((known) => known.line === line)) continue;
    const found = error.code === 'DUPLICATE_KEY' ? wordAt(text, error.pos[0]) : lineOf(text, line);
    add(error.pos[0], found, words.message, words.write);
    if (error.code !== 'DUPLICATE_KEY') trusted = false;
  }
  for (const one of trusted ? forbidden(document, text) : []) {
    add(one.offset, one.found, one.message, one.write);
    trusted = false;
  }
  if (!trusted) return { yaml: null, missing: false, problems };

  const spotOf = (node: Node | null, offset: number): Spot => {
    const source = node?.range ? text.slice(node.range[0], node.range[1]) : '';
    const quoted = isScalar(node) && typeof node.value === 'string' && /^["'|>]/.test(source);
    return {
      ...at(offset),
      found: shown(quoted ? String(node.value) : source),
      source: options.secret ? '' : source,
    };
  };
  const yaml: YamlFile = {
    file,
    data: document.toJS({ maxAliasCount: 0 }),
    spot(path) {
      const step = walk(document.contents, path);
      if (step.rest > 0) return { ...spotOf(null, step.offset), found: '', source: '' };
      return spotOf(step.node, step.offset);
    },
    keySpot(path) {
      const step = walk(document.contents, path);
      return {
        ...at(step.keyOffset),
        found: shown(String(path.at(-1) ?? '')),
        source: String(path.at(-1) ?? ''),
      };
    },
  };
  return { yaml, missing: false, problems };
}

/** Null for a text nested so deeply that no stack holds it. */
function parsed(text: string, lines: LineCounter): Document | null {
  try {
    return parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      schema: 'core',
      stringKeys: true,
      uniqueKeys: true,
      logLevel: 'error',
    });
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

interface Step {
  readonly node: Node | null;
  /** Where to point: a value, but the field's name for lists, groups and empty fields. */
  readonly offset: number;
  readonly keyOffset: number;
  /** How many parts of the path were not found. */
  readonly rest: number;
}

function walk(root: Node | null, path: Path): Step {
  let step: Step = { node: root, offset: start(root), keyOffset: start(root), rest: 0 };
  for (let i = 0; i < path.length; i += 1) {
    const next = child(step.node, path[i] ?? '', step);
    if (!next) return { ...step, rest: path.length - i };
    step = next;
  }
  return step;
}

function child(node: Node | null, part: string | number, from: Step): Step | null {
  if (isSeq(node)) {
    const item = node.items[Number(part)];
    if (!isNode(item)) return null;
    return { node: item, offset: start(item), keyOffset: start(item), rest: 0 };
  }
  if (!isMap(node)) return null;
  // The last of two equal names, because that is the one the data has.
  const pair = node.items.findLast((one) => keyOf(one) === String(part));
  if (!pair) return null;
  const keyOffset = isNode(pair.key) ? start(pair.key) : from.offset;
  const value = isNode(pair.value) ? pair.value : null;
  const empty = value === null || (isScalar(value) && value.value === null);
  return { node: value, offset: empty || isCollection(value) ? keyOffset : start(value), keyOffset, rest: 0 };
}

function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
}

function start(node: Node | null): number {
  return node?.range?.[0] ?? 0;
}

function lineOf(text: string, line: number): string {
  return text.split('\n')[line - 1] ?? '';
}

function wordAt(text: string, offset: number): string {
  return /^["']?([^:"'\r\n]*)/.exec(text.slice(offset, offset + 80))?.[1] ?? '';
}
