import { foremen, nameOf, namesOf } from '../flow/decision.ts';
import { buttons, heading, list, message, paragraph } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import type { Actor } from '../model/actor.ts';
import type { PersonId } from '../model/id.ts';
import { own } from '../model/own.ts';
import { at, type View } from './context.ts';

export function actorName({ shift, texts }: View, actor: Actor): string {
  if (actor.kind === 'person') return nameOf(shift, actor.person);
  return actor.kind === 'unknown' ? texts.say('stop.unknown-person') : 'Potbell';
}

/**
 * ST2: the button that clears a stop stands only where whoever reads it may press it; everybody else reads whose it is.
 * `reader`: null where nobody in particular reads, as in the crew's channel or on a wall.
 */
export function stopMessage(
  view: View,
  stop: { at: number; by: Actor; text: string },
  reader: PersonId | null,
): Message {
  const { texts, shift } = view;
  const clears = reader !== null && own(shift.day.people, reader)?.roles.includes('foreman') === true;
  return message(
    texts.say('stop.summary', { time: at(view, stop.at), person: actorName(view, stop.by), text: stop.text }),
    'danger',
    heading(texts.say('stop.title')),
    ...(stop.text ? [paragraph(stop.text)] : []),
    list([texts.say('stop.do-1'), texts.say('stop.do-2'), texts.say('stop.do-3')], true),
    ...(clears
      ? buttons({
          label: texts.say('today.press-clear-stop'),
          tone: 'plain',
          action: { kind: 'open', form: { id: 'clear-stop-work', about: {} } },
        })
      : [paragraph(texts.say('stop.clears', { people: namesOf(shift, foremen(shift)) }))]),
  );
}
