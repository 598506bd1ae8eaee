import type { CarryOver, Experience } from '../model/day.ts';
import type { CoatingId, PersonId, RigId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Shift } from '../model/shift.ts';

/** SR6: what a crew takes along to its next briefing: what it was told, what it misread, who has worked with what. */
export function crewMemory(
  shift: Shift,
): Required<Pick<CarryOver, 'told' | 'misread' | 'experience' | 'rigs'>> {
  return {
    told: told(shift),
    misread: misread(shift),
    experience: experience(shift),
    rigs: lastInRigs(shift),
  };
}

/** Of a briefing that never went out nobody has heard. */
function told({ briefing, issuedAt, carriedIn }: Shift): Readonly<Record<string, string>> {
  if (issuedAt === null) return carriedIn?.told ?? {};
  return Object.fromEntries(briefing.cautions.map(({ id, kind }) => [id, kind]));
}

/** A question comes back until a whole shift got it right. Which one of the crew was wrong is not taken along. */
function misread({ people, carriedIn }: Shift): readonly string[] {
  const answers = Object.values(people).flatMap((person) => person.answers);
  const asked = new Set(answers.map(({ question }) => question));
  const wrong = answers.filter(({ right }) => !right).map(({ question }) => question);
  const still = (carriedIn?.misread ?? []).filter((question) => !asked.has(question));
  return [...new Set([...still, ...wrong])].sort();
}

/** Worked with: was on a job whose coating was mixed for its rig. Signing alone makes nobody a hand at a coating. */
function experience(shift: Shift): Readonly<Record<PersonId, Experience>> {
  const known = new Map(Object.entries(shift.carriedIn?.experience ?? {}));
  const learn = (person: PersonId, coatings: readonly CoatingId[], rigs: readonly RigId[]) => {
    const had = known.get(person) ?? { coatings: [], rigs: [] };
    known.set(person, {
      coatings: [...new Set([...had.coatings, ...coatings])].sort(),
      rigs: [...new Set([...had.rigs, ...rigs])].sort(),
    });
  };
  for (const [person, { signOffs }] of Object.entries(shift.people))
    if (signOffs.length > 0) learn(person, [], []);
  for (const { coating, rig, sprayers, mixers } of shift.day.entry.jobs) {
    const mixed = own(shift.rigs, rig)?.batches.some((batch) => batch.coating === coating);
    if (mixed) for (const person of [...sprayers, ...mixers]) learn(person, [coating], [rig]);
  }
  return Object.fromEntries([...known].sort(([x], [y]) => (x < y ? -1 : 1)));
}

function lastInRigs({ rigs, day, carriedIn }: Shift): NonNullable<CarryOver['rigs']> {
  const today = Object.entries(rigs).flatMap(([rig, { batches }]) => {
    const coating = batches.at(-1)?.coating;
    if (coating === undefined) return [];
    return [[rig, { coating, solvent: own(day.coatings, coating)?.flushSolvent ?? '' }] as const];
  });
  return { ...carriedIn?.rigs, ...Object.fromEntries(today) };
}
