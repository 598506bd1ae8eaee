import { needsToSign } from '../../briefing/build.ts';
import type { EventBody } from '../../model/event.ts';
import type { PersonId } from '../../model/id.ts';
import type { Shift } from '../../model/shift.ts';
import { type Instant, MINUTE } from '../../model/time.ts';
import { bell, type WantedBell } from './wanted.ts';

/** Somebody whose sign-off is missing, and when they are first chased for it. */
export interface Chased {
  readonly person: PersonId;
  readonly dueAt: Instant;
}

export function chased(shift: Shift): readonly Chased[] {
  if (shift.issuedAt === null) return [];
  return shift.day.crew.flatMap((person) => {
    const state = shift.people[person];
    if (!state || state.askedAt === null || needsToSign(shift.briefing, state.signed).length === 0) return [];
    // Somebody who raised a concern instead is not chased for the sign-off they held back.
    const own = shift.concerns.filter(({ by }) => by === person);
    if (own.some(({ resolved }) => !resolved)) return [];
    const asked = Math.max(state.askedAt, ...own.map(({ resolved }) => resolved?.at ?? 0));
    return [{ person, dueAt: asked + shift.day.policy.chaseSignOffMinutes * MINUTE }];
  });
}

/** BE10: one bell to the crew that names all who are chased, and one to each of them alone. */
export function signOffBells(shift: Shift): readonly WantedBell[] {
  const missing = chased(shift);
  if (missing.length === 0) return [];
  const { revision } = shift.briefing;
  const first = Math.min(...missing.map(({ dueAt }) => dueAt));
  return [
    bell('unsigned', String(revision), first),
    ...missing.map(({ person, dueAt }) => bell('unsigned', `${person}:${revision}`, dueAt, { person })),
  ];
}

/**
 * BE10: whether the foreman has been told of somebody by the crew's bell: it named them when it rang for the foreman, or
 * when it rang for the crew and somebody took it. `rang`: what rings at this moment.
 */
export function foremanKnows(
  shift: Shift,
  dueAt: Instant,
  now: Instant,
  rang: readonly EventBody[],
): boolean {
  const key = `unsigned:${shift.briefing.revision}`;
  const list = shift.bells[key];
  const told = list?.rings.some(
    (ring) => ring.at >= dueAt && (ring.level !== 'crew' || list.answered !== null),
  );
  const tells = rang.some((one) => one.type === 'bell-rang' && one.bell === key && one.level !== 'crew');
  return told === true || (tells && now >= dueAt);
}

/** Concern and stop-work are cried out when they happen; these bells ask again while nobody has dealt with them. */
export function holdBells(shift: Shift): readonly WantedBell[] {
  const { foremanAfterMinutes, repeatEveryMinutes } = shift.day.policy;
  const open = shift.concerns.filter(({ resolved }) => !resolved);
  return [
    ...open.map(({ id, at }) => bell('concern', id, at + foremanAfterMinutes * MINUTE, { first: 'foreman' })),
    ...(shift.stop
      ? [
          bell('stop-work', String(shift.stop.at), shift.stop.at + repeatEveryMinutes * MINUTE, {
            first: 'foreman',
          }),
        ]
      : []),
  ];
}
