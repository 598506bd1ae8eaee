import { wantedBells } from '../../flow/bells.ts';
import { foremen, nameOf, safetyContacts } from '../../flow/decision.ts';
import { message, note, paragraph } from '../../message/build.ts';
import type { PersonId, RigId } from '../../model/id.ts';
import type { BellLevel, Shift } from '../../model/shift.ts';
import type { Audience } from '../../ports.ts';
import { answeredMessage, bellMessage, rungBell, rungOf } from '../bell.ts';
import { messageKey } from '../bell-key.ts';
import type { View } from '../context.ts';
import { recordSummary } from '../record.ts';
import { stopMessage } from '../stop.ts';
import { type Announce, crew, type Say, toForeman } from './say.ts';

/** Stop-work, bells, messages that did not arrive, the end of the shift. */
export const alarmSays = {
  // ST2: who may clear it has it alone as well, with the button; in the channel everybody would press it.
  'work-stopped': ({ text }, { event, after }) => {
    const own = [...foremen(after), ...othersOf(after, after.day.crew).map(({ person }) => person)];
    const people = [...new Set(own)].map((person) => ({ kind: 'person', person }) as const);
    return [crew, ...people].map((to) => ({
      key: `stop-work:${event.seq}`,
      to,
      urgency: 'bell',
      words: (view) =>
        stopMessage(view, { at: event.at, by: event.by, text }, to.kind === 'crew' ? null : to.person),
    }));
  },
  'stop-cleared': ({ by, text }, { event, after }) =>
    inEveryLanguage(after, after.day.crew, {
      key: `stop-work:${event.seq}`,
      urgency: 'bell',
      words: ({ shift, texts }) => {
        const summary = texts.say('stop.cleared', { person: nameOf(shift, by), text });
        return message(summary, 'good', note('good', summary), paragraph(texts.say('stop.check')));
      },
    }),
  'bell-rang': (body, { after, event }) => {
    const key = messageKey(body.bell, after);
    return heardBy(after, body.level, body.person, body.rig).map((to) => ({
      key,
      to,
      urgency: 'bell',
      words: (view) => bellMessage(view, rungBell(body, event.at), to.kind === 'crew' ? null : to.person),
    }));
  },
  // Where it rang it now says who is on it: nobody else walks, and nobody thinks that somebody else does.
  'bell-answered': ({ bell, by }, { after, event }) => {
    const state = after.bells[bell];
    const wanted = wantedBells(after).find(({ key }) => key === bell);
    const last = state?.rings.at(-1);
    if (!state || !wanted || !last) return [];
    const words = (view: View) => answeredMessage(view, rungOf(bell, state, wanted), by, event.at);
    const key = messageKey(bell, after);
    return heardBy(after, last.level, wanted.person, wanted.rig).map((to) => ({ key, to, words }));
  },
  'message-undelivered': ({ to, surface, why }, { after, event }) =>
    toForeman(after, {
      key: `undelivered:${event.seq}`,
      urgency: 'bell',
      words: ({ texts }) => {
        const summary = texts.say('undelivered.summary', { to, surface, why });
        return message(summary, 'danger', note('danger', summary));
      },
    }),
  'shift-closed': () => [{ key: 'closed', to: crew, words: recordSummary }],
} satisfies {
  readonly [T in
    | 'work-stopped'
    | 'stop-cleared'
    | 'bell-rang'
    | 'bell-answered'
    | 'message-undelivered'
    | 'shift-closed']: Announce<T>;
};

/** On the crew's screens and channel, and to each of these people who reads another language, in theirs. */
function inEveryLanguage(shift: Shift, people: readonly PersonId[], say: Omit<Say, 'to'>): readonly Say[] {
  return [crew, ...othersOf(shift, people)].map((to) => ({ ...say, to }));
}

function othersOf({ day }: Shift, people: readonly PersonId[]): readonly (Audience & { kind: 'person' })[] {
  return people
    .filter((id) => (day.people[id]?.language ?? day.site.language) !== day.site.language)
    .map((person) => ({ kind: 'person', person }));
}

/** Whoever a ring is for, and who works on its rig but reads another language than the crew's channel. */
function heardBy(
  shift: Shift,
  level: BellLevel,
  person: PersonId | null,
  rig: RigId | null,
): readonly Audience[] {
  const rung = audiences(shift, level, person);
  const jobs = shift.day.entry.jobs.filter((job) => rig !== null && job.rig === rig);
  const hands = [...new Set(jobs.flatMap(({ sprayers, mixers }) => [...sprayers, ...mixers]))];
  const told = new Set(rung.flatMap((to) => (to.kind === 'person' ? [to.person] : [])));
  return [...rung, ...othersOf(shift, hands).filter((to) => !told.has(to.person))];
}

/**
 * Louder levels still reach the quieter ones: the safety contact being told does not excuse the crew. BE10: a bell to one
 * person is nobody's in the channel; the crew has its own, with all the names.
 */
function audiences(shift: Shift, level: BellLevel, person: PersonId | null): readonly Audience[] {
  const first: readonly Audience[] = [person === null ? crew : { kind: 'person', person }];
  if (level === 'crew') return first;
  const people = level === 'foreman' ? foremen(shift) : [...foremen(shift), ...safetyContacts(shift)];
  return [
    ...first,
    ...[...new Set(people)]
      .filter((id) => id !== person)
      .map((id) => ({ kind: 'person', person: id }) as const),
  ];
}
