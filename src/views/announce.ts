import type { EventBody, EventType, JournalEvent } from '../model/event.ts';
import type { Shift } from '../model/shift.ts';
import type { Outgoing } from '../ports.ts';
import type { TextsFor } from '../texts/texts.ts';
import type { View } from './context.ts';
import { alarmSays } from './says/alarms.ts';
import { correctionSays } from './says/corrections.ts';
import { paintSays } from './says/paint.ts';
import { peopleSays } from './says/people.ts';
import { rigSays } from './says/rigs.ts';
import type { Announce } from './says/say.ts';

/** Every event, so that the compiler asks what a new one says. `nobody` is an answer, silence by omission is not. */
const announce: { readonly [T in EventType]: Announce<T> } = {
  ...peopleSays,
  ...rigSays,
  ...paintSays,
  ...correctionSays,
  ...alarmSays,
};

/**
 * The messages that follow from a committed step, in order, in each reader's language. Words are chosen here, once, so
 * what is stored is what people were shown.
 */
export function announcements(
  before: Shift | null,
  after: Shift,
  events: readonly JournalEvent[],
  textsFor: TextsFor,
): readonly (Outgoing & { readonly seq: number })[] {
  return events.flatMap((event) => {
    const says = (announce[event.body.type] as Announce<EventType>)(event.body as EventBody as never, {
      before,
      after,
      event,
    });
    return says.map(({ key, to, urgency, words }) => {
      const language =
        to.kind === 'crew'
          ? after.day.site.language
          : (after.day.people[to.person]?.language ?? after.day.site.language);
      const view: View = { shift: after, texts: textsFor(language), now: event.at };
      return { key, audience: to, urgency: urgency ?? 'quiet', message: words(view), seq: event.seq };
    });
  });
}
