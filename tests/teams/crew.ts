import type { Again } from '../../adapters/chat/again.ts';
import { type Composed, compose } from '../../adapters/cli/compose.ts';
import { handClock } from '../../adapters/cli/hand-clock.ts';
import { type LoadedSite, loadSite } from '../../adapters/cli/site.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { PATH } from '../../adapters/teams/link.ts';
import { instantOf } from '../../src/model/time.ts';
import type { Store, SurfaceMemory } from '../../src/ports.ts';
import { crewLog, passing } from '../chats/passing.ts';
import { type PeerOptions, startTeamsPeer, type TeamsPeer } from '../peers/teams/peer.ts';
import type { MessageState } from '../peers/teams/types.ts';
import { handTimers } from '../slack/by-hand.ts';
import { configOf } from './link-helpers.ts';

export const DATE = '2026-06-08';
export const TEAM = '19:span-2-team@thread.tacv2';
export const CHANNEL = '19:span-2-crew@thread.tacv2';
export const STRANGER = '29:sam';
export const STRANGER_ID = '00000000-0000-4000-8000-0000000000ff';

/** The 29:… id by which the platform knows a person. */
const member = (id: string) => `29:${id}`;

/** The demo site with its crew in an invented organisation. */
export function teamsSite(site: LoadedSite = loadSite()): LoadedSite {
  return {
    ...site,
    pack: {
      ...site.pack,
      site: { ...site.pack.site, teams: { channel: CHANNEL } },
      people: site.pack.people.map((person, at) => ({ ...person, teams: objectId(at) })),
    },
  };
}

const objectId = (at: number) => `00000000-0000-4000-8000-${String(at + 1).padStart(12, '0')}`;
export interface Crew {
  readonly teams: TeamsPeer;
  readonly potbell: Omit<Composed, 'board'>;
  readonly site: LoadedSite;
  /** What it remembers of the chat. */
  readonly memory: SurfaceMemory;
  readonly faults: readonly string[];
  member(person: string): string;
  /** The clock of site and platform goes on to this time; what comes due on the way rings and is delivered. */
  passTo(hhmm: string): Promise<void>;
  /** The clock alone goes on: nothing rings and nothing is delivered by this. */
  pass(ms: number): void;
  /** Deliver all that is queued, letting as much time go by as the platform's limits ask for. */
  deliver(): Promise<void>;
  /** What stands in the crew's channel now, in order. */
  channel(): readonly MessageState[];
  /** What stands in a person's conversation with Potbell. */
  dm(person: string): readonly MessageState[];
  close(): Promise<void>;
}

export interface CrewOptions {
  /** Timers that go off by hand; left out, none ever does. */
  readonly again?: Again;
  /** How long a call may take, ms. */
  readonly timeoutMs?: number;
  /** Before Potbell starts. */
  readonly prepare?: (teams: TeamsPeer) => Promise<void> | void;
  /** False: nobody has put the app into the team yet. */
  readonly installed?: boolean;
  readonly site?: LoadedSite;
  readonly peer?: Partial<PeerOptions>;
  readonly store?: Store;
  readonly memory?: SurfaceMemory;
  readonly at?: string;
  readonly teams?: TeamsPeer;
}

/** Potbell, whole, with nobody but Teams for a surface, and the crew on the other side of it. */
export async function crewOnTeams(options: CrewOptions = {}): Promise<Crew> {
  const site = options.site ?? teamsSite();
  const { people, site: place } = site.pack;
  const time = (hhmm: string) => instantOf(DATE, hhmm, place.timeZone);
  const start = time(options.at ?? '06:30');
  const clock = handClock(start);
  const { faults, log, port } = crewLog();
  const everybody = [...people.map(({ id }) => member(id)), STRANGER];
  const teams =
    options.teams ??
    (await startTeamsPeer({
      startAt: start,
      people: [
        ...people.map(({ id, name, teams: aadId = '' }) => ({ id: member(id), name, aadId })),
        { id: STRANGER, name: 'Sam', aadId: STRANGER_ID },
      ],
      teams: [{ id: TEAM, name: 'Span 2', members: everybody, channels: [{ id: CHANNEL, name: 'crew' }] }],
      ...options.peer,
    }));
  const goOn = (ms: number) => {
    clock.set(clock.now() + ms);
    teams.clock.advance(clock.now() - teams.clock.now());
  };
  const memory = options.memory ?? memorySurfaceMemory(clock);
  await options.prepare?.(teams);
  const chat = {
    config: configOf(teams),
    memory,
    wait: async (ms: number) => goOn(ms),
    again: options.again ?? handTimers().again,
    ...(options.timeoutMs !== undefined && { timeoutMs: options.timeoutMs }),
  };
  const store = options.store ?? memoryStore();
  const potbell = await compose(site, store, clock, log, { teams: chat });
  potbell.join();
  await teams.until(() => port() !== null);
  teams.httpTo(`http://127.0.0.1:${port()}${PATH}`);
  const [first] = people;
  if (options.installed !== false && options.teams === undefined && first !== undefined)
    await teams.installs(member(first.id), TEAM);

  return {
    teams,
    potbell,
    site,
    memory,
    faults,
    member,
    ...passing(potbell, clock, goOn, time),
    channel: () => teams.messages(CHANNEL).filter(({ deleted }) => !deleted),
    dm: (person) => teams.messages(teams.chat(member(person))).filter(({ deleted }) => !deleted),
    async close() {
      teams.httpTo(null);
      await potbell.stop();
      await teams.close();
    },
  };
}

/** All that a person reads on a card: every text and title in it, mentions and escapes as they are. */
export function read(value: unknown): string {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return value.map(read).filter(Boolean).join('\n');
  if (typeof value !== 'object' || value === null) return '';
  return Object.entries(value)
    .map(([key, inside]) => {
      if (['text', 'title', 'label', 'value', 'errorMessage'].includes(key)) return read(inside);
      return typeof inside === 'object' && !['data', 'fallback', 'msteams', 'refresh'].includes(key)
        ? read(inside)
        : '';
    })
    .filter(Boolean)
    .join('\n');
}
