import type { EventBody, EventType, JournalEvent } from '../model/event.ts';
import type { Shift } from '../model/shift.ts';
import type { Outgoing } from '../ports.ts';
import type { TextsFor } from '../texts/texts.ts';
import { holdsChanged } from './briefing-channel.ts';
import type { View } from './context.ts';
import { alarmSays } from './says/alarms.ts';
import { correctionSays } from './says/corrections.ts';
import { paintSays } from './says/paint.ts';
import { briefingToCrew, peopleSays } from './says/people.ts';
import { rigSays } from './says/rigs.ts';
import type { Announce, Say } from './says/say.ts';

/** Every event, so that the compiler asks what a new one says. `nobody` is an answer, silence by omission is not. */
const announce: { readonly [T in EventType]: Announce<T> } = {
  ...peopleSays,
  ...rigSays,
  ...paintSays,
  ...correctionSays,
  ...alarmSays,
};

/** A message with its place in the journal. */
export type Announced = Outgoing & { readonly seq: number };

/**
 * The messages that follow from a committed step, in order, in each reader's language. Words are chosen here, once, so
 * what is stored is what people were shown.
 */
export function announcements(
  before: Shift | null,
  after: Shift,
  events: readonly JournalEvent[],
  textsFor: TextsFor,
): readonly Announced[] {
  const said = saidOf(before, after, events, textsFor);
  const last = events.at(-1);
  const briefing = briefingToCrew(after);
  if (!before || !last || said.some(({ key }) => key === briefing.key)) return said;
  if (!holdsMoved(before, after, events, textsFor)) return said;
  return [...said, announced(briefing, after, last, textsFor)];
}

/** What each of these events tells, without what the channel's briefing says of the holds. */
export function saidOf(
  before: Shift | null,
  after: Shift,
  events: readonly JournalEvent[],
  textsFor: TextsFor,
): readonly Announced[] {
  return events.flatMap((event) => {
    const says = (announce[event.body.type] as Announce<EventType>)(event.body as EventBody as never, {
      before,
      after,
      event,
    });
    return says.map((say) => announced(say, after, event, textsFor));
  });
}

function announced(say: Say, after: Shift, event: JournalEvent, textsFor: TextsFor): Announced {
  const { key, to, urgency, words } = say;
  const { site, people } = after.day;
  const language = to.kind === 'crew' ? site.language : (people[to.person]?.language ?? site.language);
  const view: View = { shift: after, texts: textsFor(language), now: event.at };
  return { key, audience: to, urgency: urgency ?? 'quiet', message: words(view), seq: event.seq };
}

/** SO11: once the briefing is out and as long as the shift is open. */
function holdsMoved(
  before: Shift,
  after: Shift,
  events: readonly JournalEvent[],
  textsFor: TextsFor,
): boolean {
  if (before.issuedAt === null || after.issuedAt === null || after.status === 'closed') return false;
  const now = events.at(-1)?.at ?? 0;
  // A reading that grows old and paint that dies change no shift, but a bell rings at that very time.
  const since = events.map(({ at, body }) => (body.type === 'bell-rang' ? body.scheduledFor - 1 : at));
  const texts = textsFor(after.day.site.language);
  return holdsChanged({ shift: before, texts, now: Math.min(now, ...since) }, { shift: after, texts, now });
}
