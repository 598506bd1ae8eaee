import { KIND_NOT_KNOWN } from '../briefing/kind.ts';
import type { CarryOver, Experience } from '../model/day.ts';
import type { CoatingId, PersonId, RigId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Shift } from '../model/shift.ts';

/** SR6: what a crew takes along to its next briefing: what it was told, what it misread, who has worked with what. */
export function crewMemory(
  shift: Shift,
): Pick<CarryOver, 'told'> & Required<Pick<CarryOver, 'misread' | 'experience' | 'rigs'>> {
  return {
    ...told(shift),
    misread: misread(shift),
    experience: experience(shift),
    rigs: lastInRigs(shift),
  };
}

/**
 * Of a briefing that never went out nobody has heard. Nothing where a caution was stored before there were kinds: what it
 * was about is not known, and beside a guess everything would be new tomorrow.
 */
function told({ briefing, issuedAt, carriedIn }: Shift): Pick<CarryOver, 'told'> {
  if (issuedAt === null) {
    const before = carriedIn ? carriedIn.told : {};
    return before ? { told: before } : {};
  }
  if (briefing.cautions.some(({ kind }) => kind === KIND_NOT_KNOWN)) return {};
  return { told: Object.fromEntries(briefing.cautions.map(({ id, kind }) => [id, kind])) };
}

/** A question comes back until a whole shift got it right. Which one of the crew was wrong is not taken along. */
function misread({ people, carriedIn }: Shift): readonly string[] {
  const answers = Object.values(people).flatMap((person) => person.answers);
  const asked = new Set(answers.map(({ question }) => question));
  const wrong = answers.filter(({ right }) => !right).map(({ question }) => question);
  const still = (carriedIn?.misread ?? []).filter((question) => !asked.has(question));
  return [...new Set([...still, ...wrong])].sort();
}

/**
 * Worked with: signed, and was on a job whose coating was mixed for its rig. Signing alone makes nobody a hand at a
 * coating, and neither does a name on a job for somebody who never came.
 */
function experience(shift: Shift): Readonly<Record<PersonId, Experience>> {
  const known = new Map(Object.entries(shift.carriedIn?.experience ?? {}));
  const learn = (person: PersonId, coatings: readonly CoatingId[], rigs: readonly RigId[]) => {
    const had = known.get(person) ?? { coatings: [], rigs: [] };
    known.set(person, {
      coatings: [...new Set([...had.coatings, ...coatings])].sort(),
      rigs: [...new Set([...had.rigs, ...rigs])].sort(),
    });
  };
  const here = new Set(
    Object.entries(shift.people).flatMap(([person, { signOffs }]) => (signOffs.length > 0 ? [person] : [])),
  );
  for (const person of here) learn(person, [], []);
  for (const { coating, rig, sprayers, mixers } of shift.day.entry.jobs) {
    const mixed = own(shift.rigs, rig)?.batches.some((batch) => batch.coating === coating);
    if (!mixed) continue;
    for (const person of [...sprayers, ...mixers]) if (here.has(person)) learn(person, [coating], [rig]);
  }
  return Object.fromEntries([...known].sort(([x], [y]) => (x < y ? -1 : 1)));
}

/** A rig that had a job and no batch on record is left out: nobody knows what ran in it, or whether anything did. */
function lastInRigs({ rigs, day, carriedIn }: Shift): NonNullable<CarryOver['rigs']> {
  const today = Object.entries(rigs).flatMap(([rig, { batches }]) => {
    const coating = batches.at(-1)?.coating;
    if (coating === undefined) return [];
    return [[rig, { coating, solvent: own(day.coatings, coating)?.flushSolvent ?? '' }] as const];
  });
  const jobs = new Set(day.entry.jobs.map(({ rig }) => rig));
  const idle = Object.entries(carriedIn?.rigs ?? {}).filter(([rig]) => !jobs.has(rig));
  return Object.fromEntries([...idle, ...today]);
}
