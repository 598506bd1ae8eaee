import { needsToSign } from '../../briefing/build.ts';
import { nameOf } from '../../flow/decision.ts';
import { message, note, paragraph } from '../../message/build.ts';
import type { PersonId } from '../../model/id.ts';
import type { Shift } from '../../model/shift.ts';
import { briefingInChannel } from '../briefing-channel.ts';
import { dayChangedMessage } from '../day-changed.ts';
import { signOffInChat } from '../sign-off.ts';
import { type Announce, crew, line, nobody, type Say } from './say.ts';

/** Briefing, sign-offs, arrivals, concerns. */
export const peopleSays = {
  'day-posted': nobody,
  'day-changed': ({ day }, { before, event }) =>
    // Before the briefing went out there is nothing that anybody has heard otherwise.
    !before || before.issuedAt === null
      ? []
      : [
          {
            key: `day-changed:${event.seq}`,
            to: crew,
            words: (view) => dayChangedMessage(view, before.day, day, event.by),
          },
        ],
  // The briefing that follows at once has it, as cautions.
  'carried-over': nobody,
  'briefing-issued': (_body, { after }) => [
    briefingToCrew(after),
    ...toSign(after).map((person) => signOffTo(person)),
  ],
  'person-arrived': ({ person }, { after }) => [
    line(`arrived:${person.id}`, 'plain', ({ texts }) =>
      texts.say('arrive.summary', { person: person.name }),
    ),
    ...(after.issuedAt === null ? [] : [signOffTo(person.id)]),
  ],
  // The person sees the reason, and the next button, in the answer to the press itself.
  'question-answered': nobody,
  signed: ({ person, revision, witnessedBy }, { after }) => [
    // Who is still missing stands in it.
    ...(after.issuedAt === null ? [] : [briefingToCrew(after)]),
    line(`signed:${person}`, 'good', ({ shift, texts }) => {
      const name = nameOf(shift, person);
      if (witnessedBy === null) return texts.say('sign.signed-summary', { person: name, revision });
      return texts.say('sign.signed-witnessed-summary', {
        person: name,
        revision,
        witness: nameOf(shift, witnessedBy),
      });
    }),
  ],
  'concern-raised': ({ concern, by, text }) => [
    {
      key: concern,
      to: crew,
      urgency: 'bell',
      words: ({ shift, texts }) => {
        const summary = texts.say('concern.raised', { person: nameOf(shift, by), text });
        return message(
          summary,
          'attention',
          note('attention', summary),
          paragraph(texts.say('concern.holds')),
        );
      },
    },
  ],
  'concern-resolved': ({ concern, by, text }) => [
    line(`${concern}:resolved`, 'good', ({ shift, texts }) =>
      texts.say('concern.resolved', { person: nameOf(shift, by), text }),
    ),
  ],
} satisfies {
  readonly [T in
    | 'day-posted'
    | 'day-changed'
    | 'carried-over'
    | 'briefing-issued'
    | 'person-arrived'
    | 'question-answered'
    | 'signed'
    | 'concern-raised'
    | 'concern-resolved']: Announce<T>;
};

function toSign(shift: Shift): readonly PersonId[] {
  return shift.day.crew.filter(
    (id) => needsToSign(shift.briefing, shift.people[id]?.signed ?? {}).length > 0,
  );
}

/** The short of the briefing in the channel, put right in place. */
export function briefingToCrew({ id }: Pick<Shift, 'id'>): Say {
  return { key: `briefing:${id}`, to: crew, words: briefingInChannel };
}

function signOffTo(person: PersonId): Say {
  return {
    key: `sign-off:${person}`,
    to: { kind: 'person', person },
    words: (view) => signOffInChat(view, person),
  };
}
