import { needsToSign } from '../briefing/build.ts';
import { nameOf } from '../flow/decision.ts';
import { holdsOf } from '../flow/holds.ts';
import { buttons, heading, list, message } from '../message/build.ts';
import type { Message, Tone } from '../message/message.ts';
import type { PersonId } from '../model/id.ts';
import { at, type View } from './context.ts';
import { holdText } from './holds.ts';

/** How one person stands with the briefing, and what holds: what leads their own view of a card that all share. */
export function ownStateMessage(view: View, person: PersonId): Message {
  const { shift, texts, now } = view;
  const { tone, text } = ownState(view, person);
  const holds = holdsOf(shift, now);
  const press = {
    label: texts.say('sign.title'),
    tone: 'main',
    action: { kind: 'show', page: 'sign-off' },
  } as const;
  return message(
    text,
    shift.stop ? 'danger' : tone,
    ...(tone === 'attention' ? buttons(press) : []),
    ...(holds.length === 0
      ? []
      : [
          heading(texts.say('hold.title', { count: holds.length })),
          list(holds.map((hold) => holdText(view, hold))),
        ]),
  );
}

function ownState(view: View, person: PersonId): { readonly tone: Tone; readonly text: string } {
  const { shift, texts } = view;
  const name = nameOf(shift, person);
  if (!shift.day.crew.includes(person))
    return { tone: 'attention', text: texts.say('sign.not-on-shift', { person: name }) };
  if (shift.issuedAt === null)
    return { tone: 'plain', text: texts.say('sign.wait', { time: at(view, shift.day.prestartAt) }) };
  const state = shift.people[person];
  const last = state?.signOffs.at(-1);
  if (last === undefined || needsToSign(shift.briefing, state?.signed ?? {}).length > 0)
    return { tone: 'attention', text: texts.say('sign.ask', { person: name }) };
  const { revision } = last;
  return {
    tone: 'good',
    text: texts.say('sign.own-signed', { person: name, revision, time: at(view, last.at) }),
  };
}
