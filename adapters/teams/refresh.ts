import { buttons } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { briefingInChannel } from '../../src/views/briefing-channel.ts';
import { ownStateMessage } from '../../src/views/own-state.ts';
import { signOffInChat } from '../../src/views/sign-off.ts';
import { shiftMark } from '../chat/marks.ts';
import { words } from '../chat/messages.ts';
import { unknownPerson } from '../chat/refused.ts';
import { todayMessage } from '../chat/today.ts';
import { type Visit, visitOf } from '../chat/visit.ts';
import type { Conversations } from './conversations.ts';
import type { Shown } from './direct.ts';
import type { CardName, Press } from './inbound.ts';
import { optionsFor } from './look.ts';
import { refreshingPart } from './refresh-part.ts';
import { renderMessage } from './render.ts';
import type { Card } from './render-card.ts';
import type { TeamsServices } from './services.ts';

type People = Pick<Conversations, 'userId'>;

/** Cards for one person; a single one asks anew when it comes into sight. */
export async function refreshingTo<P extends Shown>(
  people: People,
  { member, shift }: Pick<Visit, 'member' | 'shift'>,
  card: CardName,
  cards: readonly P[],
): Promise<readonly P[]> {
  const [only] = cards;
  if (only === undefined || cards.length > 1) return cards;
  return [await refreshingPart(only, { card, of: shiftMark(shift?.id ?? null), people: [member] }, people)];
}

/** A card as the person who looks at it sees it now. Nothing changes by it. */
export async function refreshedCard(
  services: TeamsServices,
  people: People,
  { member, card, of }: Pick<Press, 'member' | 'card' | 'of'>,
): Promise<Card> {
  const now = await visitOf(services, member);
  const shift = await shiftOf(services, now, card, of);
  if (card === undefined || shift === 'over') return only(services, now, oldCard(now));
  const visit = { ...now, shift };
  switch (card) {
    case 'today':
      return refreshing(visit, todayMessage(services, visit));
    case 'sign-off':
      return shift === null || visit.person === null
        ? only(services, visit, visit.person === null ? unknownPerson(visit) : oldCard(visit))
        : refreshing(
            visit,
            signOffInChat({ shift, texts: visit.texts, now: services.clock.now() }, visit.person.id),
          );
    case 'briefing': {
      if (shift === null) return only(services, visit, oldCard(visit));
      const shown = briefingFor(services, { ...visit, shift });
      return (await refreshingTo(people, visit, card, [shown]))[0]?.card ?? shown.card;
    }
  }

  async function refreshing(visit: Visit, message: Message): Promise<Card> {
    const cards = renderMessage(message, optionsFor(services, visit.texts, visit.shift?.id ?? null));
    const [first] = await refreshingTo(people, visit, card ?? 'today', cards);
    return first !== undefined && cards.length === 1 ? first.card : longer(visit);
  }

  /** What no single card holds is not cut: the whole of it is one press away. */
  function longer(visit: Visit): Card {
    const page = card === 'sign-off' ? 'sign-off' : 'today';
    return only(services, visit, withPress(visit, words('attention', visit.texts.say('talk.longer')), page));
  }
}

/** The shift that a card is of, null for a card of before the day was posted, or 'over' for one of another day. */
async function shiftOf(
  services: Pick<TeamsServices, 'openShifts'>,
  { shift }: Visit,
  card: CardName | undefined,
  of: string | undefined,
): Promise<Shift | null | 'over'> {
  if (of === shiftMark(shift?.id ?? null) || (card === 'today' && of === shiftMark(null))) return shift;
  return (await services.openShifts()).find(({ id }) => of === shiftMark(id)) ?? 'over';
}

function oldCard(visit: Visit): Message {
  const { texts } = visit;
  return withPress(visit, words('attention', texts.say('talk.old-card')), 'today');
}

function withPress({ texts }: Visit, said: Message, page: 'today' | 'sign-off'): Message {
  const press = {
    label: texts.say(`talk.page.${page}`),
    tone: 'main',
    action: { kind: 'show', page },
  } as const;
  return { ...said, blocks: [...said.blocks, ...buttons(press)] };
}

function only(services: TeamsServices, { texts, shift }: Visit, message: Message): Card {
  const [first, ...more] = renderMessage(message, optionsFor(services, texts, shift?.id ?? null));
  if (first === undefined || more.length > 0) throw new Error('a few words took more than one card');
  return first.card;
}

/**
 * The channel's card of the briefing under how they stand, in their language where it is one card. The whole of it stands in
 * the thread in the site's language, and in theirs in their own chat.
 */
function briefingFor(services: TeamsServices, visit: Visit & { readonly shift: Shift }): Shown {
  const { person, shift, texts } = visit;
  const now = services.clock.now();
  const inWords = (of: Texts) =>
    renderMessage(briefingInChannel({ shift, texts: of, now }), optionsFor(services, of, shift.id)).filter(
      ({ thread }) => !thread,
    );
  const own = inWords(texts);
  const [base] = own.length === 1 ? own : inWords(services.texts(services.pack().site.language));
  if (base === undefined) throw new Error('the briefing took no card');
  const said = person === null ? unknownPerson(visit) : ownStateMessage({ shift, texts, now }, person.id);
  const state = only(services, visit, said);
  const entities = [...(state.msteams.entities ?? []), ...(base.card.msteams.entities ?? [])];
  const mentioned = new Map(entities.map((one) => [one.text, one]));
  return {
    summary: base.summary,
    card: {
      ...base.card,
      body: [...state.body, ...base.card.body],
      msteams: { ...base.card.msteams, ...(mentioned.size > 0 && { entities: [...mentioned.values()] }) },
    },
  };
}
