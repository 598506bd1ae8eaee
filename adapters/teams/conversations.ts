import { z } from 'zod';
import type { SurfaceMemory } from '../../src/ports.ts';
import type { Inbound } from './inbound.ts';
import { activitySchema, memberOf, type Place, placeOf, whoSchema } from './inbound-parts.ts';
import { TEAMS } from './services.ts';

const referenceSchema = z.object({ serviceUrl: z.string(), team: z.string().nullable() });

/** Where a conversation is reached. */
export type Reference = z.infer<typeof referenceSchema>;

/**
 * Where each conversation is reached, whose chat is which, and how the platform calls a person; kept across restarts.
 * `learn` gets verified activities only: whoever could say where to write would be sent the bot's token. Losing any of
 * it does no harm that the next activity of Teams does not mend.
 */
export function createConversations(memory: SurfaceMemory) {
  /** Writing what is there already at every press would be a write for nothing. */
  async function keep(key: string, value: string): Promise<void> {
    if ((await memory.get(TEAMS, key)) !== value) await memory.put(TEAMS, key, value);
  }

  async function refresh({ conversation, serviceUrl, team }: Place): Promise<void> {
    await keep('service', serviceUrl);
    await keep(`at:${conversation}`, JSON.stringify({ serviceUrl, team }));
  }

  async function reference(conversation: string): Promise<Reference | null> {
    const text = await memory.get(TEAMS, `at:${conversation}`);
    return text === null ? null : referenceSchema.parse(JSON.parse(text));
  }

  async function forget(conversation: string): Promise<void> {
    await memory.remove(TEAMS, `at:${conversation}`);
    for (const { key, value } of await memory.list(TEAMS, 'dm:'))
      if (value === conversation) await memory.remove(TEAMS, key);
  }

  async function forgetTeam(team: string): Promise<void> {
    for (const { key, value } of await memory.list(TEAMS, 'at:'))
      if (referenceSchema.parse(JSON.parse(value)).team === team) await memory.remove(TEAMS, key);
  }

  return {
    reference,
    forget,

    /** From every verified activity, before anything is done about it. */
    async learn(activity: unknown, inbound: Inbound): Promise<void> {
      if (inbound.kind === 'removed') {
        if (inbound.what === 'team' && inbound.place.team !== null) await forgetTeam(inbound.place.team);
        await forget(inbound.place.conversation);
        return;
      }
      const read = activitySchema.safeParse(activity);
      if (!read.success) return;
      const place = placeOf(read.data);
      await refresh(place);
      const people = [read.data.from, ...(read.data.membersAdded ?? [])].flatMap((one) => {
        const who = whoSchema.safeParse(one);
        return who.success && who.data.id !== read.data.recipient?.id ? [who.data] : [];
      });
      for (const who of people) await keep(`user:${memberOf(who)}`, who.id);
      const [person] = people;
      if (place.kind === 'personal' && person !== undefined)
        await keep(`dm:${memberOf(person)}`, place.conversation);
    },

    /** Where to write to a conversation: its own last address, or the newest Teams gave at all. Null: none yet. */
    async serviceUrl(conversation: string | null): Promise<string | null> {
      const own = conversation === null ? null : await reference(conversation);
      return own?.serviceUrl ?? (await memory.get(TEAMS, 'service'));
    },

    /** There is no Teams at this address any more: from now on the newest is tried, if that is another. */
    async moved(conversation: string, from: string): Promise<void> {
      const newest = await memory.get(TEAMS, 'service');
      const own = await reference(conversation);
      if (own === null || newest === null || newest === from || own.serviceUrl !== from) return;
      await keep(`at:${conversation}`, JSON.stringify({ ...own, serviceUrl: newest }));
    },

    personal: (member: string): Promise<string | null> => memory.get(TEAMS, `dm:${member}`),

    async opened(member: string, conversation: string, serviceUrl: string): Promise<void> {
      await keep(`dm:${member}`, conversation);
      await keep(`at:${conversation}`, JSON.stringify({ serviceUrl, team: null }));
    },

    /** The 29:… id by which the platform knows a member; null when it has not come by yet. */
    userId: (member: string): Promise<string | null> =>
      member.startsWith('29:') ? Promise.resolve(member) : memory.get(TEAMS, `user:${member}`),

    met: (member: string, userId: string): Promise<void> => keep(`user:${member}`, userId),
  };
}

export type Conversations = ReturnType<typeof createConversations>;
