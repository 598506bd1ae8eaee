import { parse } from 'yaml';
import type { z } from 'zod';
import { fieldNotes } from './fields.ts';
import { issueWords, NO_WORDS, unknownField } from './issue-words.ts';
import { type EntryKind, entrySchema, entrySchemas, type SchemaNode } from './json-schemas.ts';
import type { PackProblem } from './problem.ts';
import { valueAt } from './value-at.ts';
import { schemaAt } from './wanted.ts';
import { inFieldUnits } from './with-units.ts';
import type { Path, YamlFile } from './yaml-file.ts';

export type EntryOf<K extends EntryKind> = z.infer<(typeof entrySchemas)[K]>;

/** One site, person, coating sheet, rig, policy or day as it stands in a file. */
export interface Entry<K extends EntryKind> {
  readonly kind: K;
  readonly yaml: YamlFile;
  /** Where it begins in its file; [] when the file is the entry. */
  readonly base: Path;
  /** As typed. */
  readonly raw: unknown;
  /** Null when it has a problem. */
  readonly value: EntryOf<K> | null;
  readonly problems: readonly PackProblem[];
}

/** Everything that is wrong with one entry, each with its place in the file. */
export function checkEntry<K extends EntryKind>(kind: K, yaml: YamlFile, base: Path, raw: unknown): Entry<K> {
  const { data, faults } = inFieldUnits(kind, raw);
  const parsed = entrySchemas[kind].safeParse(data, { error: () => NO_WORDS });
  if (parsed.success) return { kind, yaml, base, raw, value: parsed.data as EntryOf<K>, problems: [] };

  const schema = entrySchema(kind);
  const issues = parsed.error.issues;
  const meant = new Set<string>();
  const problems: PackProblem[] = faults.map(({ path, message, write }) => {
    const { line, column, found } = yaml.spot([...base, ...path]);
    return { file: yaml.file, line, column, field: fieldName(kind, raw, base, path), found, message, write };
  });
  const faulty = new Set(faults.map(({ path }) => dotted(path)));
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    for (const key of issue.keys) {
      const path = [...pathOf(issue), key];
      const { message, write, meant: field } = unknownField(key, schemaAt(schema, pathOf(issue)));
      if (field !== null) meant.add(dotted([...pathOf(issue), field]));
      const { line, column, found } = yaml.keySpot([...base, ...path]);
      problems.push({
        file: yaml.file,
        line,
        column,
        field: fieldName(kind, raw, base, path),
        found,
        message,
        write,
      });
    }
  }
  for (const issue of [...issues, ...secondLook(kind, schema, data, issues)]) {
    const path = pathOf(issue);
    if (faulty.has(dotted(path))) continue;
    const value = valueAt(raw, path);
    // The misspelt field was named already: one slip, one problem.
    if (issue.code === 'unrecognized_keys' || (value === undefined && meant.has(dotted(path)))) continue;
    if (isRepeat(issue, issues)) continue;
    const { line, column, found, source } = yaml.spot([...base, ...path]);
    const words = issueWords(issue, { kind, schema, path, value, source });
    problems.push({
      file: yaml.file,
      line,
      column,
      field: fieldName(kind, raw, base, path),
      found,
      ...words,
    });
  }
  return { kind, yaml, base, raw, value: null, problems };
}

/** A problem at a field of an entry. */
export function problemAt(entry: Entry<EntryKind>, path: Path, message: string, write: string): PackProblem {
  const { line, column, found } = entry.yaml.spot([...entry.base, ...path]);
  const field = fieldName(entry.kind, entry.raw, entry.base, path);
  return { file: entry.yaml.file, line, column, field, found, message, write };
}

/**
 * A schema with rules across its fields leaves them out while a field has the wrong type. So look again with those fields
 * put right, and keep the rules that do not rest on them.
 */
function secondLook(
  kind: EntryKind,
  schema: SchemaNode,
  raw: unknown,
  issues: readonly z.core.$ZodIssue[],
): readonly z.core.$ZodIssue[] {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return [];
  if (issues.some((issue) => issue.code === 'custom')) return [];
  const mended: Record<string, unknown> = { ...raw };
  const touched = new Set<string>();
  for (const issue of issues) {
    for (const name of issue.code === 'unrecognized_keys' ? [] : [String(issue.path[0])]) {
      touched.add(name);
      if (schema.required?.includes(name)) mended[name] = parse(fieldNotes[`${kind}.${name}`]?.example ?? '');
      else delete mended[name];
    }
  }
  // What a two-pack needs cannot be judged while the number of parts is in doubt.
  if (touched.has('parts')) return [];
  const again = entrySchemas[kind].safeParse(mended, { error: () => NO_WORDS });
  return (again.error?.issues ?? []).filter(
    (issue) => issue.code === 'custom' && !touched.has(String(issue.path[0])),
  );
}

/** A rule about a text that is not even written the right way says the same thing twice. */
function isRepeat(issue: z.core.$ZodIssue, all: readonly z.core.$ZodIssue[]): boolean {
  const place = dotted(pathOf(issue));
  return (
    issue.code === 'custom' &&
    all.some((other) => other.code === 'invalid_format' && dotted(pathOf(other)) === place)
  );
}

function pathOf(issue: z.core.$ZodIssue): Path {
  return issue.path.map((part) => (typeof part === 'symbol' ? String(part) : part));
}

function dotted(path: Path): string {
  return path.join('.');
}

/** "coatings.epoxy-mid.potLife.#2.c": an entry by its id if it has one, a place in a list by its number from 1. */
export function fieldName(kind: EntryKind, raw: unknown, base: Path, path: Path): string {
  const id = valueAt(raw, ['id']);
  const listed = kind === 'people' || kind === 'coatings' || kind === 'rigs';
  const own = listed ? [typeof id === 'string' && id !== '' ? id : `#${Number(base.at(-1) ?? 0) + 1}`] : [];
  return [kind, ...own, ...path.map((part) => (typeof part === 'number' ? `#${part + 1}` : part))].join('.');
}
