import { foremen, nameOf, safetyContacts } from '../../flow/decision.ts';
import { message, note, paragraph } from '../../message/build.ts';
import type { PersonId } from '../../model/id.ts';
import type { BellLevel, Shift } from '../../model/shift.ts';
import type { Audience } from '../../ports.ts';
import { bellMessage, rungBell } from '../bell.ts';
import type { View } from '../context.ts';
import { recordSummary } from '../record.ts';
import { stopMessage } from '../stop.ts';
import { type Announce, crew, nobody, toForeman } from './say.ts';

/** Stop-work, bells, messages that did not arrive, the end of the shift. */
export const alarmSays = {
  'work-stopped': ({ text }, { event }) => [
    {
      key: `stop-work:${event.seq}`,
      to: crew,
      urgency: 'bell',
      words: (view) => stopMessage(view, { at: event.at, by: event.by, text }),
    },
  ],
  'stop-cleared': ({ by, text }, { event }) => [
    {
      key: `stop-work:${event.seq}`,
      to: crew,
      urgency: 'bell',
      words: ({ shift, texts }) => {
        const summary = texts.say('stop.cleared', { person: nameOf(shift, by), text });
        return message(summary, 'good', note('good', summary), paragraph(texts.say('stop.check')));
      },
    },
  ],
  'bell-rang': (body, { after, event }) => {
    const words = (view: View) => bellMessage(view, rungBell(body, event.at));
    const key = `bell:${body.bell}:${body.dueAt}`;
    return audiences(after, body.level, body.person).map((to) => ({ key, to, urgency: 'bell', words }));
  },
  'bell-answered': nobody,
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

/** Louder levels still reach the quieter ones: the safety contact being told does not excuse the crew. */
function audiences(shift: Shift, level: BellLevel, person: PersonId | null): readonly Audience[] {
  const first: readonly Audience[] = person === null ? [crew] : [{ kind: 'person', person }, crew];
  if (level === 'crew') return first;
  const people = level === 'foreman' ? foremen(shift) : [...foremen(shift), ...safetyContacts(shift)];
  return [
    ...first,
    ...[...new Set(people)]
      .filter((id) => id !== person)
      .map((id) => ({ kind: 'person', person: id }) as const),
  ];
}
