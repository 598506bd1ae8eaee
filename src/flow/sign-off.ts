import { needsToSign } from '../briefing/build.ts';
import { checkAnswer, type PickedQuestion, pickQuestion } from '../briefing/read-back.ts';
import type { PersonId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { PersonState, Shift } from '../model/shift.ts';
import type { Person } from '../model/site.ts';
import { issueEvents } from './day-entry.ts';
import {
  type Apply,
  accept,
  type Context,
  type Decide,
  foremanOf,
  nameOf,
  personOf,
  type Refusal,
  refuse,
} from './decision.ts';
import { untouchedPerson } from './untouched.ts';

/** SO1: a revision goes out to everybody who has something new to sign. */
export const applyBriefingIssued: Apply<'briefing-issued'> = (shift, _event, { at }) => ({
  ...shift,
  issuedAt: at,
  people: Object.fromEntries(
    Object.entries(shift.people).map(([id, state]) => [
      id,
      needsToSign(shift.briefing, state.signed).length > 0 ? { ...state, askedAt: at } : state,
    ]),
  ),
});

export const decideIssueBriefing: Decide<'issue-briefing'> = (shift, _command, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  if (shift.issuedAt !== null) return refuse('refusal.already-issued', { revision: shift.briefing.revision });
  return accept(...issueEvents(shift, context.before));
};

/** SO5: somebody who was not on the list turns up; they are asked on arrival like everybody else. */
export const decideArrive: Decide<'arrive'> = (shift, command, context) => {
  // Somebody added to the pack since the day was posted is not in the shift's own copy of it, and may still arrive.
  const known = context.pack.people.some(
    (one) => context.actor.kind === 'person' && one.id === context.actor.person,
  );
  const by = personOf(shift, context);
  if ('refused' in by && !known) return by;
  const person =
    context.pack.people.find(({ id }) => id === command.person) ?? own(shift.day.people, command.person);
  if (!person) return refuse('refusal.unknown-person', { person: command.person });
  if (shift.day.crew.includes(person.id)) return refuse('refusal.already-here', { person: person.name });
  return accept({ type: 'person-arrived', person });
};

export const applyArrived: Apply<'person-arrived'> = (shift, { person }, { at }) => ({
  ...shift,
  day: {
    ...shift.day,
    crew: [...shift.day.crew, person.id],
    people: { ...shift.day.people, [person.id]: person },
  },
  briefing: { ...shift.briefing, mustSign: [...shift.briefing.mustSign, person.id] },
  people: {
    ...shift.people,
    [person.id]: {
      ...(shift.people[person.id] ?? untouchedPerson),
      arrivedLate: true,
      askedAt: shift.issuedAt === null ? null : at,
    },
  },
});

/** The person a press counts for: oneself, or with a foreman's press somebody the foreman stands beside. */
function signer(
  shift: Shift,
  witnessFor: PersonId | undefined,
  context: Context,
): { readonly person: Person; readonly witness: PersonId | null } | Refusal {
  if (witnessFor === undefined) {
    const who = personOf(shift, context);
    return 'refused' in who ? who : { person: who.person, witness: null };
  }
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  const person = own(shift.day.people, witnessFor);
  if (!person) return refuse('refusal.unknown-person', { person: witnessFor });
  // Nobody witnesses themselves: that would be a sign-off without a witness called witnessed.
  return { person, witness: person.id === foreman.person.id ? null : foreman.person.id };
}

function asked(shift: Shift, person: Person, revision: number): PersonState | Refusal {
  if (shift.issuedAt === null) return refuse('refusal.not-issued');
  const state = shift.people[person.id];
  if (!state || !shift.day.crew.includes(person.id))
    return refuse('refusal.not-on-shift', { person: person.name });
  if (revision !== shift.briefing.revision)
    return refuse('refusal.old-revision', { pressed: revision, revision: shift.briefing.revision });
  if (needsToSign(shift.briefing, state.signed).length === 0)
    return refuse('refusal.already-signed', { person: person.name, revision });
  return state;
}

/** SO2: the read-back question this person is to answer now; null when none is open. */
export function openQuestion(shift: Shift, person: PersonId): PickedQuestion | null {
  const state = shift.people[person];
  if (!state) return null;
  const needed = needsToSign(shift.briefing, state.signed);
  if (needed.length === 0 || answeredRight(shift, state)) return null;
  const wrong = state.answers.filter(
    ({ revision, right }) => revision === shift.briefing.revision && !right,
  ).length;
  const misread = shift.carriedIn?.misread ?? [];
  return pickQuestion(shift.briefing, needed, person, shift.date, wrong, misread);
}

/** SO3: may sign when the last answer to this revision was right, or when what is left to sign asks nothing. */
export function maySign(shift: Shift, person: PersonId): boolean {
  const state = shift.people[person];
  if (!state || needsToSign(shift.briefing, state.signed).length === 0) return false;
  return openQuestion(shift, person) === null;
}

function answeredRight(shift: Shift, state: PersonState): boolean {
  return state.answers.some(({ revision, right }) => revision === shift.briefing.revision && right);
}

export function questionId(picked: PickedQuestion): string {
  return `${picked.caution}/${picked.question}`;
}

export const decideAnswer: Decide<'answer'> = (shift, command, context) => {
  const who = signer(shift, command.witnessFor, context);
  if ('refused' in who) return who;
  const state = asked(shift, who.person, command.revision);
  if ('refused' in state) return state;
  const open = openQuestion(shift, who.person.id);
  if (!open) return refuse('refusal.already-answered', { person: who.person.name });
  if (command.question !== questionId(open)) return refuse('refusal.old-question');
  if (command.choice >= open.order.length) return refuse('refusal.old-question');
  return accept({
    type: 'question-answered',
    person: who.person.id,
    revision: command.revision,
    question: command.question,
    right: checkAnswer(open.order, command.choice),
    witnessedBy: who.witness,
    ...(context.shown ? { shown: context.shown } : {}),
  });
};

export const applyAnswered: Apply<'question-answered'> = (shift, event, { at }) =>
  withPerson(shift, event.person, (state) => ({
    ...state,
    answers: [
      ...state.answers,
      { revision: event.revision, at, question: event.question, right: event.right },
    ],
  }));

export const decideSign: Decide<'sign'> = (shift, command, context) => {
  const who = signer(shift, command.witnessFor, context);
  if ('refused' in who) return who;
  const state = asked(shift, who.person, command.revision);
  if ('refused' in state) return state;
  if (!maySign(shift, who.person.id))
    return refuse('refusal.answer-first', { person: nameOf(shift, who.person.id) });
  const cautions = needsToSign(shift.briefing, state.signed);
  return accept({
    type: 'signed',
    person: who.person.id,
    revision: command.revision,
    cautions: Object.fromEntries(cautions.map(({ id, fingerprint }) => [id, fingerprint])),
    witnessedBy: who.witness,
    ...(context.shown ? { shown: context.shown } : {}),
  });
};

export const applySigned: Apply<'signed'> = (shift, event, { at, by }) =>
  withPerson(shift, event.person, (state) => ({
    ...state,
    signed: { ...state.signed, ...event.cautions },
    signOffs: [
      ...state.signOffs,
      {
        revision: event.revision,
        at,
        witnessedBy: event.witnessedBy,
        surface: by.kind === 'system' ? by.part : by.surface,
        cautions: Object.keys(event.cautions).sort(),
      },
    ],
  }));

function withPerson(shift: Shift, person: PersonId, change: (state: PersonState) => PersonState): Shift {
  const state = shift.people[person] ?? untouchedPerson;
  return { ...shift, people: { ...shift.people, [person]: change(state) } };
}
