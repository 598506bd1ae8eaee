import { needsToSign } from '../../briefing/build.ts';
import type { Shift } from '../../model/shift.ts';
import { MINUTE } from '../../model/time.ts';
import { bell, type WantedBell } from './wanted.ts';

export function signOffBells(shift: Shift): readonly WantedBell[] {
  if (shift.issuedAt === null) return [];
  return shift.day.crew.flatMap((person) => {
    const state = shift.people[person];
    if (!state || state.askedAt === null || needsToSign(shift.briefing, state.signed).length === 0) return [];
    // Somebody who raised a concern instead is not chased for the sign-off they held back.
    const own = shift.concerns.filter(({ by }) => by === person);
    if (own.some(({ resolved }) => !resolved)) return [];
    const asked = Math.max(state.askedAt, ...own.map(({ resolved }) => resolved?.at ?? 0));
    const dueAt = asked + shift.day.policy.chaseSignOffMinutes * MINUTE;
    return [bell('unsigned', `${person}:${shift.briefing.revision}`, dueAt, { person })];
  });
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
