import { basename } from 'node:path';
import { checkEntry, type Entry } from './check-entry.ts';
import type { EntryKind } from './json-schemas.ts';
import type { PackProblem } from './problem.ts';
import { readYaml, type YamlFile } from './yaml-file.ts';

export interface ReadEntries<K extends EntryKind> {
  /** Null when a file of them could not be read: then nothing can be said about what is in them. */
  readonly entries: readonly Entry<K>[] | null;
  readonly problems: readonly PackProblem[];
}

export interface ReadEntry<K extends EntryKind> {
  readonly entry: Entry<K> | null;
  readonly problems: readonly PackProblem[];
}

/** For a missing file: the name of one that looks like it. */
export type Close = (name: string) => string | null;

/** A file that is one entry. `emptyIs`: what a file with nothing in it stands for, if that is allowed. */
export function readOne<K extends EntryKind>(
  kind: K,
  file: string,
  close: Close,
  emptyIs?: object,
): ReadEntry<K> {
  const { yaml, missing, problems } = readYaml(file);
  if (!yaml) return { entry: null, problems: missing ? missingAs(problems, file, close, emptyIs) : problems };
  const raw = yaml.data === null && emptyIs !== undefined ? emptyIs : yaml.data;
  if (raw === null)
    return { entry: null, problems: [...problems, empty(yaml, 'its fields, as in docs/site-pack.md')] };
  const entry = checkEntry(kind, yaml, [], raw);
  return { entry, problems: [...problems, ...entry.problems] };
}

/** A file that is a list of entries; with `single`, one entry without a list is accepted as well. */
export function readMany<K extends EntryKind>(
  kind: K,
  file: string,
  close: Close,
  single = false,
): ReadEntries<K> {
  const { yaml, missing, problems } = readYaml(file);
  if (!yaml) return { entries: null, problems: missing ? missingAs(problems, file, close) : problems };
  const listed = Array.isArray(yaml.data) ? yaml.data : null;
  if (yaml.data === null || listed?.length === 0)
    return {
      entries: null,
      problems: [...problems, empty(yaml, 'at least one entry; it begins with "- id: "')],
    };
  if (!listed && !(single && typeof yaml.data === 'object'))
    return { entries: null, problems: [...problems, notAList(yaml, kind)] };
  const entries = listed
    ? listed.map((raw, i) => checkEntry(kind, yaml, [i], raw))
    : [checkEntry(kind, yaml, [], yaml.data)];
  return { entries, problems: [...problems, ...entries.flatMap((entry) => entry.problems)] };
}

export function joined<K extends EntryKind>(parts: readonly ReadEntries<K>[]): ReadEntries<K> {
  const unread = parts.some((part) => part.entries === null);
  return {
    entries: unread ? null : parts.flatMap((part) => part.entries ?? []),
    problems: parts.flatMap((part) => part.problems),
  };
}

function missingAs(
  problems: readonly PackProblem[],
  file: string,
  close: Close,
  emptyIs?: object,
): readonly PackProblem[] {
  const near = close(basename(file));
  if (near !== null)
    return problems.map((problem) => ({
      ...problem,
      found: near,
      write: `${basename(file)} as the name of that file`,
    }));
  if (emptyIs === undefined) return problems;
  return problems.map((problem) => ({
    ...problem,
    write: 'create this file; with nothing in it all defaults hold',
  }));
}

function empty(yaml: YamlFile, write: string): PackProblem {
  return {
    file: yaml.file,
    line: 1,
    column: 1,
    field: '',
    found: '',
    message: 'there is nothing in this file',
    write,
  };
}

function notAList(yaml: YamlFile, kind: EntryKind): PackProblem {
  const { line, column, found } = yaml.spot([]);
  const write = 'each entry beginning with "- id: ", its other fields below it, two spaces further in';
  return {
    file: yaml.file,
    line,
    column,
    field: kind,
    found,
    message: 'a list is expected in this file',
    write,
  };
}
