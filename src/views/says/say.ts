import { foremen } from '../../flow/decision.ts';
import { message, note, paragraph } from '../../message/build.ts';
import type { Message, Tone } from '../../message/message.ts';
import type { EventOf, EventType, JournalEvent } from '../../model/event.ts';
import type { Shift } from '../../model/shift.ts';
import type { Audience, Outgoing } from '../../ports.ts';
import type { View } from '../context.ts';

/** What an event gives rise to: words for an audience, before anybody's language is known. */
export interface Say {
  readonly key: string;
  readonly to: Audience;
  readonly urgency?: Outgoing['urgency'];
  readonly words: (view: View) => Message;
}

export interface Happened {
  readonly before: Shift | null;
  readonly after: Shift;
  readonly event: JournalEvent;
}

export type Announce<T extends EventType> = (body: EventOf<T>, happened: Happened) => readonly Say[];

export const crew: Audience = { kind: 'crew' };
export const nobody = () => [];
export const toForeman = (shift: Shift, say: Omit<Say, 'to'>): readonly Say[] =>
  foremen(shift).map((person) => ({ ...say, to: { kind: 'person', person } }));

/** One line to the crew, its summary. */
export function line(key: string, tone: Tone, words: (view: View) => string): Say {
  return {
    key,
    to: crew,
    words: (view) => {
      const text = words(view);
      return message(text, tone, tone === 'plain' ? paragraph(text) : note(tone, text));
    },
  };
}
