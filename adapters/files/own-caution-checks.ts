import { gradeRank } from '../../src/briefing/grade.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { gradeSchema, SITE_CAUTION } from '../../src/model/site-cautions.ts';
import { type Entry, problemAt } from './check-entry.ts';
import { nearest } from './nearest.ts';
import { oneOf } from './one-of.ts';
import type { PackProblem } from './problem.ts';
import { idOf, type Refs, reference } from './references.ts';
import { listAt, valueAt } from './value-at.ts';
import type { Path } from './yaml-file.ts';

const catalogue = new Map(cautionRules.map(({ id, grade }) => [id, grade]));

/** A site's cautions may only name what there is, and only make a grade harder. */
export function cautionChecks(entry: Entry<'cautions'>, refs: Refs): readonly PackProblem[] {
  return [...tightened(entry).flatMap((line) => tightenProblem(entry, line)), ...ownProblems(entry, refs)];
}

/** What is written and does nothing. */
export function cautionWarnings(entry: Entry<'cautions'>, refs: Refs): readonly PackProblem[] {
  const idle = tightened(entry)
    .filter(({ id, grade }) => catalogue.get(id) === grade)
    .map(({ id, grade }) =>
      problemAt(
        entry,
        ['tighten', id],
        `${id} is ${grade} without this line`,
        'a harder grade, or take the line out',
      ),
    );
  return [...idle, ...hazardWarnings(entry, refs)];
}

interface Tightened {
  readonly id: string;
  /** Null when it is no grade: that is a problem of its own. */
  readonly grade: keyof typeof gradeRank | null;
}

function tightened(entry: Entry<'cautions'>): readonly Tightened[] {
  const lines = valueAt(entry.raw, ['tighten']);
  if (typeof lines !== 'object' || lines === null || Array.isArray(lines)) return [];
  return Object.entries(lines).map(([id, value]) => ({
    id,
    grade: gradeSchema.safeParse(value).data ?? null,
  }));
}

function tightenProblem(entry: Entry<'cautions'>, { id, grade }: Tightened): readonly PackProblem[] {
  const known = [...catalogue.keys()];
  const now = catalogue.get(id);
  if (now === undefined) {
    const meant = nearest(id, known);
    const { line, column, found } = entry.yaml.keySpot(['tighten', id]);
    const all = id.startsWith(SITE_CAUTION)
      ? 'the grade of an own caution into its entry under own'
      : `${meant === null ? '' : `${meant}, if that was meant; `}${oneOf(known)}`;
    const message = 'there is no caution with this name in the catalogue';
    return [
      { file: entry.yaml.file, line, column, field: `cautions.tighten.${id}`, found, message, write: all },
    ];
  }
  if (grade === null || gradeRank[grade] <= gradeRank[now]) return [];
  const message = `this would make ${id} milder: it is ${now}, and no site can lower a grade`;
  return [problemAt(entry, ['tighten', id], message, 'a harder grade, or take the line out')];
}

function ownProblems(entry: Entry<'cautions'>, refs: Refs): readonly PackProblem[] {
  const ids = listAt(entry.raw, 'own').map(idOf);
  return listAt(entry.raw, 'own').flatMap((one, i) => {
    const first = ids.indexOf(ids[i] ?? '');
    const at = (name: string) =>
      listAt(valueAt(one, ['when']), name).map((_, k): Path => ['own', i, 'when', name, k]);
    const repeated =
      ids[i] === '' || first === i
        ? []
        : [
            problemAt(
              entry,
              ['own', i, 'id'],
              `this id is used twice, first at line ${entry.yaml.spot(['own', first, 'id']).line}`,
              'another id; each one may be used once',
            ),
          ];
    return [
      ...repeated,
      ...at('coatings').flatMap((path) => reference(entry, path, 'coatings', refs)),
      ...at('rigs').flatMap((path) => reference(entry, path, 'rigs', refs)),
    ];
  });
}

/** A slip in a code would keep the caution away from every day. A sheet without codes counts as having each of them. */
function hazardWarnings(entry: Entry<'cautions'>, { coatings }: Refs): readonly PackProblem[] {
  if (coatings === null) return [];
  const carried = coatings.flatMap((sheet) => listAt(sheet, 'hazards').map(String));
  return listAt(entry.raw, 'own').flatMap((one, i) =>
    listAt(valueAt(one, ['when']), 'hazards').flatMap((code, k) =>
      carried.some((has) => has.startsWith(String(code)) || String(code).startsWith(has))
        ? []
        : [
            problemAt(
              entry,
              ['own', i, 'when', 'hazards', k],
              'no coating of this site has this hazard code',
              `${oneOf([...new Set(carried)].sort())}, or leave it for a coating to come`,
            ),
          ],
    ),
  );
}
