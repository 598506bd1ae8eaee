import type { ConversationParameters } from 'botbuilder';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { Sent } from '../chat/outcome.ts';
import { refused } from './outcome.ts';
import type { SenderServices } from './sender.ts';
import type { Call } from './sender-call.ts';

/** Somebody new in the team is met by what they do, or by this much later. */
const MEET_AGAIN_MS = 10 * MINUTE;
/** learn.microsoft.com/microsoftteams/platform/bots/how-to/get-teams-context: 500 at most. */
const MOST_ON_PAGE = 500;

/** Getting to a person: `member` is the object id in Microsoft Entra, or a 29:… id. */
export function opening(
  { conversations, clock, pace, log, appId, tenantId, roster }: SenderServices,
  call: Call,
) {
  const bot = { id: `28:${appId}`, name: '' };
  const underWay = new Map<string, Promise<Sent<string>>>();

  /** The platform opens a chat by its own id for a person, which the crew's roster has for who never wrote. */
  async function userId(member: string): Promise<Sent<string>> {
    const known = await conversations.userId(member);
    if (known !== null) return { kind: 'ok', value: known };
    const from = roster();
    if (from === null) return refused('NotHeardFrom');
    const turn = `members ${from}`;
    const wait = pace.takePost(turn, clock.now());
    if (wait > 0) return { kind: 'later', afterMs: wait };
    const found = await call(from, turn, (api) => api.getConversationMember(from, member));
    if (found.kind !== 'ok') return found;
    await conversations.met(member, found.value.id);
    return { kind: 'ok', value: found.value.id };
  }

  let metAt: Instant | null = null;

  /**
   * Learns the platform's ids of everybody in the crew's team, where one of `members` has none yet. Who is not in the
   * team stays unknown. Nothing hangs on it.
   */
  async function meet(members: readonly string[]): Promise<void> {
    const from = roster();
    const known = await Promise.all(members.map(conversations.userId));
    const now = clock.now();
    if (from === null || known.every((id) => id !== null)) return;
    if (metAt !== null && now - metAt < MEET_AGAIN_MS) return;
    const turn = `members ${from}`;
    if (pace.takePost(turn, now) > 0) return;
    metAt = now;
    let next: string | undefined;
    do {
      const asked = { pageSize: MOST_ON_PAGE, ...(next !== undefined && { continuationToken: next }) };
      // The library's type wants a token also for the first page, which has none.
      const page = await call(from, turn, (api) =>
        api.getConversationPagedMembers(from, asked as Required<typeof asked>),
      );
      if (page.kind !== 'ok') {
        log.warn(
          { part: 'teams', outcome: page },
          "the crew's team could not be read; some cards do not refresh",
        );
        return;
      }
      for (const { id, aadObjectId } of page.value.members)
        if (aadObjectId !== undefined) await conversations.met(aadObjectId, id);
      next = page.value.continuationToken || undefined;
    } while (next !== undefined);
  }

  async function open(member: string): Promise<Sent<string>> {
    const known = await conversations.personal(member);
    if (known !== null) return { kind: 'ok', value: known };
    const user = await userId(member);
    if (user.kind !== 'ok') return user;
    const turn = `create ${member}`;
    const wait = pace.takePost(turn, clock.now());
    if (wait > 0) return { kind: 'later', afterMs: wait };
    const parameters = {
      isGroup: false,
      bot,
      members: [{ id: user.value, name: '' }],
      tenantId,
      channelData: { tenant: { id: tenantId } },
    };
    // About no conversation that is known: a refusal is about this person, and nothing else is forgotten over it.
    const made = await call(null, turn, async (api, serviceUrl) => {
      const { id } = await api.createConversation(parameters as ConversationParameters);
      return { id, serviceUrl };
    });
    if (made.kind !== 'ok') return made;
    const { id, serviceUrl } = made.value;
    if (!id) return { kind: 'unclear', why: 'Teams said yes without naming the conversation.' };
    await conversations.opened(member, id, serviceUrl);
    return { kind: 'ok', value: id };
  }

  return {
    meet,

    /** The id of the person's own chat with the bot: opened once for ever, and never by two at the same time. */
    openPersonal(member: string): Promise<Sent<string>> {
      const running = underWay.get(member);
      if (running !== undefined) return running;
      const work = open(member)
        // Opening it twice is harmless: the platform gives the same one.
        .then((sent): Sent<string> => (sent.kind === 'unclear' ? { kind: 'retry', why: sent.why } : sent))
        .finally(() => underWay.delete(member));
      underWay.set(member, work);
      return work;
    },
  };
}
