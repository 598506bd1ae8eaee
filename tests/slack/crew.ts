import type { Again } from '../../adapters/chat/again.ts';
import { type Composed, compose } from '../../adapters/cli/compose.ts';
import { handClock } from '../../adapters/cli/hand-clock.ts';
import { type LoadedSite, loadSite } from '../../adapters/cli/site.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { instantOf } from '../../src/model/time.ts';
import type { Store, SurfaceMemory } from '../../src/ports.ts';
import { crewLog, passing } from '../chats/passing.ts';
import { type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';
import type { MessageState, PeerOptions } from '../peers/slack/types.ts';

export const DATE = '2026-06-08';
export const CHANNEL = 'C0CREW0001';
export const STRANGER = 'U0STRANGER';

const member = (id: string) => `U0${id.toUpperCase().padEnd(8, '0')}`;

/** The demo site with its crew in an invented workspace. */
export function slackSite(site: LoadedSite = loadSite()): LoadedSite {
  return {
    ...site,
    pack: {
      ...site.pack,
      site: { ...site.pack.site, slack: { channel: CHANNEL } },
      people: site.pack.people.map((person) => ({ ...person, slack: member(person.id) })),
    },
  };
}

export interface Crew {
  readonly slack: SlackPeer;
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
  /** Timers that go off by hand. */
  readonly again?: Again;
  /** How long a call may take, ms. */
  readonly timeoutMs?: number;
  /** False: does not wait until Slack is joined. */
  readonly joined?: boolean;
  /** Before Potbell starts. */
  readonly prepare?: (slack: SlackPeer) => Promise<void> | void;
  /** Over HTTP the machine's date must be the peer's: Bolt compares the two. */
  readonly way?: 'socket' | 'http';
  readonly site?: LoadedSite;
  readonly peer?: Partial<PeerOptions>;
  readonly store?: Store;
  readonly memory?: SurfaceMemory;
  readonly at?: string;
  readonly slack?: SlackPeer;
}

/** Potbell, whole, with nobody but Slack for a surface, and the crew on the other side of it. */
export async function crewOnSlack(options: CrewOptions = {}): Promise<Crew> {
  const site = options.site ?? slackSite();
  const { people, site: place } = site.pack;
  const time = (hhmm: string) => instantOf(DATE, hhmm, place.timeZone);
  const start = time(options.at ?? '06:30');
  const clock = handClock(start);
  const { faults, log, port } = crewLog();
  const slack =
    options.slack ??
    (await startSlackPeer({
      startAt: start,
      users: [...people.map(({ id, name }) => ({ id: member(id), name })), { id: STRANGER, name: 'Sam' }],
      channels: [{ id: CHANNEL, name: 'span-2', members: [...people.map(({ id }) => member(id)), STRANGER] }],
      ...options.peer,
    }));
  const socketsBefore = slack.socketsOpened();
  const goOn = (ms: number) => {
    clock.set(clock.now() + ms);
    slack.clock.advance(clock.now() - slack.clock.now());
  };
  const memory = options.memory ?? memorySurfaceMemory(clock);
  await options.prepare?.(slack);
  const chat = {
    config: {
      botToken: slack.tokens.bot,
      way:
        options.way === 'http'
          ? ({ kind: 'http', signingSecret: slack.signingSecret, port: 0 } as const)
          : ({ kind: 'socket', appToken: slack.tokens.app } as const),
      apiUrl: slack.apiUrl,
    },
    memory,
    wait: async (ms: number) => goOn(ms),
    // Both ends are in one process: while it computes nobody answers a ping.
    pingMs: 600_000,
    ...(options.again && { again: options.again }),
    ...(options.timeoutMs !== undefined && { timeoutMs: options.timeoutMs }),
  };
  const store = options.store ?? memoryStore();
  const potbell = await compose(site, store, clock, log, { slack: chat });
  potbell.join();
  if (options.way === 'http') {
    await slack.until(() => port() !== null);
    slack.httpTo(`http://127.0.0.1:${port()}/slack/events`);
  } else if (options.joined !== false) await slack.connected(socketsBefore + 1);

  return {
    slack,
    potbell,
    site,
    memory,
    faults,
    member,
    ...passing(potbell, clock, goOn, time),
    channel: () => slack.messages(CHANNEL).filter(({ deleted }) => !deleted),
    dm: (person) => slack.messages(slack.dm(member(person))).filter(({ deleted }) => !deleted),
    async close() {
      await potbell.stop();
      await slack.close();
    },
  };
}

/** All that a person reads in a message or view: every text in it, mentions and escapes as they are. */
export function read(value: unknown): string {
  if (Array.isArray(value)) return value.map(read).filter(Boolean).join('\n');
  if (typeof value !== 'object' || value === null) return '';
  return Object.entries(value)
    .map(([key, inside]) =>
      (key === 'text' || key === 'title') && typeof inside === 'string' ? inside : read(inside),
    )
    .filter(Boolean)
    .join('\n');
}
