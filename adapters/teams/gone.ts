import { z } from 'zod';
import type { Conversations } from './conversations.ts';
import type { Inbound } from './inbound.ts';
import type { Place } from './inbound-parts.ts';
import { TEAMS, type TeamsServices } from './services.ts';

const goneSchema = z.object({ why: z.string(), team: z.string().nullable() });
type Gone = z.infer<typeof goneSchema>;

const KEY = 'gone:';
const CREW = 'crew';
const crewGone =
  "Potbell is no longer in the crew's channel in Teams: the app was taken out, or the channel or team deleted. Nothing " +
  'said there reaches anybody. Add the app again; for a new channel, correct teams.channel in site.yaml.';
const personGone = (name: string) =>
  `${name} no longer has Potbell in Teams: bells do not reach them there. Tell them by voice until they add it again.`;

/** Where Potbell was taken out of Teams, in words for the foreman, until it is there again; kept across restarts. */
export function createGone(
  { memory, pack, personOf, log }: Pick<TeamsServices, 'memory' | 'pack' | 'personOf' | 'log'>,
  { reference }: Pick<Conversations, 'reference'>,
) {
  const gone = new Map<string, Gone>();

  async function lost(what: string, one: Gone): Promise<void> {
    gone.set(what, one);
    log.warn({ part: 'teams', what }, one.why);
    await memory.put(TEAMS, `${KEY}${what}`, JSON.stringify(one));
  }

  async function back(what: string): Promise<void> {
    if (!gone.delete(what)) return;
    await memory.remove(TEAMS, `${KEY}${what}`);
  }

  async function membersOf({ conversation }: Place): Promise<readonly string[]> {
    const chats = await memory.list(TEAMS, 'dm:');
    return chats.filter(({ value }) => value === conversation).map(({ key }) => key.slice('dm:'.length));
  }

  async function removed({ place, what, by }: Extract<Inbound, { kind: 'removed' }>): Promise<void> {
    const channel = pack().site.teams?.channel;
    const team = channel === undefined ? null : ((await reference(channel))?.team ?? null);
    // A team that may be the crew's is taken for it: nobody must wait for bells that do not come.
    const isTeam = what === 'team' && (team === null || place.team === team);
    if (channel !== undefined && (place.conversation === channel || isTeam))
      return lost(CREW, { why: crewGone, team: place.team });
    const left = new Set([...(by === null ? [] : [by]), ...(await membersOf(place))]);
    for (const member of what === 'chat' ? left : []) {
      await memory.remove(TEAMS, helloKey(member));
      const person = personOf(pack(), member);
      if (person !== null) await lost(member, { why: personGone(person.name), team: null });
    }
  }

  return {
    async load(): Promise<void> {
      for (const { key, value } of await memory.list(TEAMS, KEY))
        gone.set(key.slice(KEY.length), goneSchema.parse(JSON.parse(value)));
    },
    /** Call before what is known of the conversation is forgotten. */
    async note(inbound: Inbound): Promise<void> {
      if (inbound.kind === 'ignored') return;
      if (inbound.kind === 'removed') return removed(inbound);
      const { place } = inbound;
      const crew = gone.get(CREW);
      const inCrewsTeam = crew !== undefined && crew.team !== null && crew.team === place.team;
      if (place.conversation === pack().site.teams?.channel || inCrewsTeam) await back(CREW);
      const member = 'member' in inbound ? inbound.member : inbound.kind === 'installed' ? inbound.by : null;
      if (place.kind === 'personal' && member !== null) await back(member);
    },
    problems: (): readonly string[] => [...gone.values()].map(({ why }) => why),
  };
}

/** Under it stands that a person was shown today's card on installing. */
export const helloKey = (member: string) => `hello:${member}`;
