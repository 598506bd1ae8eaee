import { nameOf } from '../flow/decision.ts';
import { buttons, heading, list, message, paragraph } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import type { Actor } from '../model/actor.ts';
import { at, type View } from './context.ts';

export function actorName({ shift, texts }: View, actor: Actor): string {
  if (actor.kind === 'person') return nameOf(shift, actor.person);
  return actor.kind === 'unknown' ? texts.say('stop.unknown-person') : 'Potbell';
}

export function stopMessage(view: View, stop: { at: number; by: Actor; text: string }): Message {
  const { texts } = view;
  return message(
    texts.say('stop.summary', { time: at(view, stop.at), person: actorName(view, stop.by), text: stop.text }),
    'danger',
    heading(texts.say('stop.title')),
    ...(stop.text ? [paragraph(stop.text)] : []),
    list([texts.say('stop.do-1'), texts.say('stop.do-2'), texts.say('stop.do-3')], true),
    ...buttons({
      label: texts.say('today.press-clear-stop'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'clear-stop-work', about: {} } },
    }),
  );
}
