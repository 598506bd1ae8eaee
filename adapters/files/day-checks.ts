import { type Entry, problemAt } from './check-entry.ts';
import { oneOf } from './one-of.ts';
import type { PackProblem } from './problem.ts';
import { idOf, type Refs, reference, rolesOf } from './references.ts';
import { listAt } from './value-at.ts';
import type { Path } from './yaml-file.ts';

/** A day entry may only name what the pack has, and put people to what they may do. */
export function dayChecks(day: Entry<'day'>, refs: Refs): readonly PackProblem[] {
  return [
    ...listAt(day.raw, 'jobs').flatMap((job, i) => [
      ...reference(day, ['jobs', i, 'coating'], 'coatings', refs),
      ...reference(day, ['jobs', i, 'rig'], 'rigs', refs),
      ...listAt(job, 'sprayers').flatMap((id, k) =>
        worker(day, ['jobs', i, 'sprayers', k], id, 'sprayer', refs),
      ),
      ...listAt(job, 'mixers').flatMap((id, k) => worker(day, ['jobs', i, 'mixers', k], id, 'mixer', refs)),
    ]),
    ...listAt(day.raw, 'others').flatMap((_, i) => reference(day, ['others', i], 'people', refs)),
  ];
}

function worker(
  day: Entry<'day'>,
  path: Path,
  id: unknown,
  role: 'sprayer' | 'mixer',
  refs: Refs,
): readonly PackProblem[] {
  const person = refs.people?.find((one) => idOf(one) === id);
  if (!person) return reference(day, path, 'people', refs);
  const roles = rolesOf(person);
  if (roles === null || roles.includes(role)) return [];
  const fit = (refs.people ?? []).filter((one) => rolesOf(one)?.includes(role)).map(idOf);
  const write =
    fit.length > 0
      ? `${oneOf(fit)}; or give ${String(id)} the role in people.yaml if that is right`
      : `the role ${role} for somebody in people.yaml first`;
  return [problemAt(day, path, `${String(id)} does not have the role ${role}`, write)];
}
