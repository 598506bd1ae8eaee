import { type Role, roleSchema } from '../../src/model/site.ts';
import { type Entry, problemAt } from './check-entry.ts';
import type { EntryKind } from './json-schemas.ts';
import { nearest } from './nearest.ts';
import { oneOf } from './one-of.ts';
import type { PackProblem } from './problem.ts';
import { valueAt } from './value-at.ts';
import type { Path } from './yaml-file.ts';

/**
 * What other files may refer to, as it was typed, so that a wrong field does not make every reference to its entry wrong
 * as well; null for a kind whose file could not be read, about which nothing can be said.
 */
export interface Refs {
  readonly people: readonly unknown[] | null;
  readonly coatings: readonly unknown[] | null;
  readonly rigs: readonly unknown[] | null;
}

const places = {
  people: { what: 'person', where: 'people.yaml' },
  coatings: { what: 'coating', where: 'the coating sheets' },
  rigs: { what: 'rig', where: 'rigs.yaml' },
} as const satisfies Record<keyof Refs, object>;

/** A problem when the id at `path` names nothing. An id that is not even text is a problem of its own. */
export function reference(
  from: Entry<EntryKind>,
  path: Path,
  to: keyof Refs,
  refs: Refs,
): readonly PackProblem[] {
  const id = valueAt(from.raw, path);
  const ids = refs[to]?.map(idOf).filter((one) => one !== '');
  if (typeof id !== 'string' || id === '' || !ids || ids.includes(id)) return [];
  const meant = nearest(id, ids);
  const { what, where } = places[to];
  return [
    problemAt(
      from,
      path,
      `there is no ${what} with this id`,
      `${meant === null ? '' : `${meant}, if that was meant; `}${ids.length === 0 ? '' : `${oneOf(ids)}; or `}add it to ${where}`,
    ),
  ];
}

export function idOf(raw: unknown): string {
  const id = valueAt(raw, ['id']);
  return typeof id === 'string' ? id : '';
}

/** Null when the roles are not a list of known roles: that is a problem of its own. */
export function rolesOf(person: unknown): readonly Role[] | null {
  const roles = roleSchema.array().safeParse(valueAt(person, ['roles']));
  return roles.success ? roles.data : null;
}
