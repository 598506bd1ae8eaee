import { UNREAD } from '../../facts/round.ts';
import { coatingName, personName, rigName } from '../../facts/used.ts';
import type { Day, Experience } from '../../model/day.ts';
import type { PersonId } from '../../model/id.ts';
import { own } from '../../model/own.ts';
import { type Because, becauseYesterday } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** Who is here for the first time, or on a coating or a rig for the first time. Not said where nobody has kept count. */
export const newToday: CautionRule = {
  id: 'new-today',
  grade: 'must',
  tasks: 'everybody',
  params: [],
  eachParams: ['person', 'state', 'what'],
  questions: [
    { id: 'other-drain', choices: 3 },
    { id: 'no-time', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const experience = carriedIn?.experience;
    if (!experience) return null;
    const found = [...day.crew]
      .sort((x, y) => (nameKey(day, x) < nameKey(day, y) ? -1 : 1))
      .flatMap((person) => newFor(day, person, own(experience, person)));
    if (found.length === 0) return null;
    return {
      params: {},
      each: found.map(({ row }) => row),
      because: found.map(({ fact }) => fact),
    };
  },
};

const nameKey = (day: Day, person: PersonId) => `${personName(day, person)}\n${person}`;

interface New {
  readonly row: Params;
  readonly fact: Because;
}

function newFor(day: Day, id: PersonId, known: Experience | undefined): readonly New[] {
  const person = personName(day, id);
  if (!known)
    return [
      {
        row: { person, state: 'starter', what: UNREAD },
        fact: becauseYesterday(person, 'experience', null),
      },
    ];
  const jobs = day.entry.jobs.filter(({ sprayers, mixers }) => [...sprayers, ...mixers].includes(id));
  const first = (all: readonly string[], before: readonly string[]) =>
    [...new Set(all)].filter((one) => !before.includes(one)).sort();
  return [
    ...first(
      jobs.map(({ coating }) => coating),
      known.coatings,
    ).map((coating) => ({
      row: { person, state: 'coating', what: coatingName(day, coating) },
      fact: becauseYesterday(person, 'experience.coatings', known.coatings),
    })),
    ...first(
      jobs.map(({ rig }) => rig),
      known.rigs,
    ).map((rig) => ({
      row: { person, state: 'rig', what: rigName(day, rig) },
      fact: becauseYesterday(person, 'experience.rigs', known.rigs),
    })),
  ];
}
