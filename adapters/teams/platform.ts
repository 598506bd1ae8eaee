import { shiftMark } from '../chat/marks.ts';
import type { Meaning, Platform } from '../chat/platform.ts';
import type { Said } from '../chat/said.ts';
import { calling } from './calling.ts';
import type { Conversations } from './conversations.ts';
import { optionsFor } from './look.ts';
import { cardNameOf, type Refreshing, refreshingPart } from './refresh-part.ts';
import { renderMessage, type TeamsPart } from './render.ts';
import type { Sender } from './sender.ts';
import type { TeamsServices } from './services.ts';

/** One of the messages that something said takes. */
export interface PlacedPart extends TeamsPart {
  /** Which of them, from 0: the others follow in the thread of the first. */
  readonly at: number;
  /** Makes a noise. */
  readonly alert: boolean;
  readonly refreshing: Refreshing | null;
}

/** learn.microsoft.com/microsoftteams/platform/bots/how-to/rate-limit: 7 a second for making conversations; our own choice below it. */
const DIRECTS_A_MINUTE = 120;

/** Ours, for a reply whose thread is not there: the platform has the same code for a conversation. */
const NO_THREAD = 'ThreadNotFound';
const lostUnder: ReadonlySet<string> = new Set(['ConversationNotFound', 'ActivityNotFoundInConversation']);

const meanings: Readonly<Record<string, Meaning>> = {
  ActivityNotFoundInConversation: 'message-lost',
  [NO_THREAD]: 'thread-lost',
  Unauthorized: 'shut-out',
  invalid_client: 'shut-out',
  unauthorized_client: 'shut-out',
  BotDisabledByAdmin: 'shut-out',
  NotHeardFrom: 'shut-out',
};

/**
 * A message in the channel that does not open a thread is called by both: to change it, the platform wants its thread
 * as well.
 */
export const messageName = (id: string, thread: string | null): string =>
  thread === null || thread === id ? id : `${id} in ${thread}`;

function whereIs(channel: string, name: string, isChannel: boolean) {
  const [id = '', thread] = name.split(' in ');
  return { conversation: channel, id, thread: thread ?? (isChannel ? id : null) };
}

export function teamsPlatform(
  services: Pick<TeamsServices, 'pack' | 'words'>,
  out: Pick<Sender, 'post' | 'update' | 'delete' | 'openPersonal' | 'meet'>,
  conversations: Pick<Conversations, 'userId'>,
): Platform<PlacedPart> {
  const isCrews = (channel: string) => services.pack().site.teams?.channel === channel;
  async function whole(part: PlacedPart): Promise<PlacedPart> {
    if (part.refreshing === null) return part;
    await out.meet(part.refreshing.people);
    return refreshingPart(part, part.refreshing, conversations);
  }

  return {
    title: 'Teams',
    bellsApart: true,
    crewChannel: ({ site }) => site.teams?.channel ?? null,
    directsAMinute: DIRECTS_A_MINUTE,
    openDirect: (member) => out.openPersonal(member),
    parts(said, texts, calls) {
      const { audience, urgency, shift } = said;
      const message = calls ? calling(said.message, services.pack(), texts) : said.message;
      const parts = renderMessage(message, optionsFor(services, texts, shift));
      return parts.map(
        (part, at): PlacedPart => ({
          ...part,
          at,
          thread: audience.kind === 'crew' && at > 0,
          alert: audience.kind === 'person' && urgency === 'bell',
          refreshing: at === 0 ? refreshingOf(said) : null,
        }),
      );
    },
    async post({ channel, part, marker, lookFirst, under }) {
      const { summary, card, at, alert } = await whole(part);
      const sent = await out.post({
        conversation: channel,
        summary,
        card,
        alert,
        lookFirst,
        marker: `${marker}.${at}`,
        ...(under !== undefined && { under }),
      });
      if (sent.kind === 'gone' && under !== undefined && lostUnder.has(sent.code))
        return { ...sent, code: NO_THREAD };
      return sent.kind === 'ok'
        ? { kind: 'ok', value: { id: messageName(sent.value.id, sent.value.thread) } }
        : sent;
    },
    async update({ channel, id, part }) {
      const { summary, card } = await whole(part);
      return out.update({ ...whereIs(channel, id, isCrews(channel)), summary, card });
    },
    remove: ({ channel, id }) => out.delete(whereIs(channel, id, isCrews(channel))),
    meaning: (code) => (Object.hasOwn(meanings, code) ? (meanings[code] ?? null) : null),
  };

  function refreshingOf(said: Said): Refreshing | null {
    const card = cardNameOf(said);
    if (card === null) return null;
    const { audience } = said;
    const people = services
      .pack()
      .people.flatMap(({ id, teams }) =>
        teams !== undefined && (audience.kind === 'crew' || id === audience.person) ? [teams] : [],
      );
    return { card, of: shiftMark(said.shift), people };
  }
}
