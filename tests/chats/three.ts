import { compose } from '../../adapters/cli/compose.ts';
import { handClock } from '../../adapters/cli/hand-clock.ts';
import { type LoadedSite, loadSite } from '../../adapters/cli/site.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { PATH } from '../../adapters/teams/link.ts';
import { encodeAction } from '../../src/message/action.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import { instantOf } from '../../src/model/time.ts';
import { visitor } from '../board/visitor.ts';
import { startSlackPeer } from '../peers/slack/peer.ts';
import { startTeamsPeer } from '../peers/teams/peer.ts';
import { handTimers } from '../slack/by-hand.ts';
import * as inSlack from '../slack/crew.ts';
import * as inTeams from '../teams/crew.ts';
import { configOf } from '../teams/link-helpers.ts';
import { DATE, the } from './hands.ts';
import { crewLog, passing } from './passing.ts';
import { slackHands } from './slack-hands.ts';
import { teamsHands } from './teams-hands.ts';

/** Where somebody is linked besides the board: in turn through the crew; the foremen everywhere. */
const links = ['slack', 'teams', 'both', 'board'] as const;
export type Linked = (typeof links)[number];

const slackMember = (id: string) => `U0${id.toUpperCase().padEnd(8, '0')}`;
const teamsMember = (id: string) => `29:${id}`;

/** The demo site with a crew of twenty, of whom some are linked to either chat, some to both, some to none. */
function siteOfTwenty(): { readonly site: LoadedSite; readonly linked: ReadonlyMap<string, Linked> } {
  const demo = loadSite();
  const one = the(demo.pack.people[0], 'person in the demo site');
  const more = Array.from({ length: 20 - demo.pack.people.length }, (_, index) => ({
    ...one,
    id: `hand${index + 10}`,
    name: `Hand ${index + 10}`,
    roles: ['helper' as const],
  }));
  const people = [...demo.pack.people, ...more];
  const whole = inTeams.teamsSite(inSlack.slackSite({ ...demo, pack: { ...demo.pack, people } }));
  const linked = new Map(
    people.map(
      ({ id, roles }, at) => [id, roles.includes('foreman') ? 'both' : (links[at % 4] ?? 'both')] as const,
    ),
  );
  const site: LoadedSite = {
    ...whole,
    demoPins: Object.fromEntries(people.map(({ id }, at) => [id, String(482_100 + 37 * at)])),
    pack: {
      ...whole.pack,
      people: whole.pack.people.map(({ slack, teams, ...person }) => {
        const where = linked.get(person.id);
        return {
          ...person,
          ...(slack !== undefined && (where === 'slack' || where === 'both') && { slack }),
          ...(teams !== undefined && (where === 'teams' || where === 'both') && { teams }),
        };
      }),
    },
  };
  return { site, linked };
}

/** One Potbell with the board, Slack and Teams at once. */
export async function openThree() {
  const { site, linked } = siteOfTwenty();
  const { people, site: place } = site.pack;
  const time = (hhmm: string) => instantOf(DATE, hhmm, place.timeZone);
  const start = time('06:30');
  const clock = handClock(start);
  const { faults, log, port } = crewLog();
  const slack = await startSlackPeer({
    startAt: start,
    users: [
      ...people.map(({ id, name }) => ({ id: slackMember(id), name })),
      { id: inSlack.STRANGER, name: 'Sam' },
    ],
    channels: [{ id: inSlack.CHANNEL, name: 'span-2', members: people.map(({ id }) => slackMember(id)) }],
  });
  const { pack: linkedToTeams } = inTeams.teamsSite(site);
  const teams = await startTeamsPeer({
    startAt: start,
    people: [
      ...linkedToTeams.people.map(({ id, name, teams: aadId = '' }) => ({
        id: teamsMember(id),
        name,
        aadId,
      })),
      { id: inTeams.STRANGER, name: 'Sam', aadId: inTeams.STRANGER_ID },
    ],
    teams: [
      {
        id: inTeams.TEAM,
        name: 'Span 2',
        members: people.map(({ id }) => teamsMember(id)),
        channels: [{ id: inTeams.CHANNEL, name: 'crew' }],
      },
    ],
  });
  const pass = (ms: number) => {
    clock.set(clock.now() + ms);
    slack.clock.advance(clock.now() - slack.clock.now());
    teams.clock.advance(clock.now() - teams.clock.now());
  };
  const timers = handTimers();
  const teamsTimers = handTimers();
  const waits = { memory: memorySurfaceMemory(clock), wait: async (ms: number) => pass(ms), pingMs: 600_000 };
  const store = memoryStore();
  const way = { kind: 'socket', appToken: slack.tokens.app } as const;
  const potbell = await compose(site, store, clock, log, {
    slack: {
      ...waits,
      again: timers.again,
      config: { botToken: slack.tokens.bot, way, apiUrl: slack.apiUrl },
    },
    teams: { ...waits, again: teamsTimers.again, config: configOf(teams) },
  });
  potbell.join();
  await slack.connected(1);
  await teams.until(() => port() !== null);
  teams.httpTo(`http://127.0.0.1:${port()}${PATH}`);
  await teams.installs(teamsMember('ines'), inTeams.TEAM);
  const shared = {
    potbell,
    site,
    memory: waits.memory,
    faults,
    ...passing(potbell, clock, pass, time),
    close: async () => undefined,
  };
  const dmIn = {
    slack: (person: string) =>
      slack.messages(slack.dm(slackMember(person))).filter(({ deleted }) => !deleted),
    teams: (person: string) =>
      teams.messages(teams.chat(teamsMember(person))).filter(({ deleted }) => !deleted),
  };
  const onSlack = slackHands(
    {
      ...shared,
      slack,
      member: slackMember,
      channel: () => slack.messages(inSlack.CHANNEL).filter(({ deleted }) => !deleted),
      dm: dmIn.slack,
    },
    timers,
  );
  const onTeams = teamsHands(
    {
      ...shared,
      teams,
      member: teamsMember,
      channel: () => teams.messages(inTeams.CHANNEL).filter(({ deleted }) => !deleted),
      dm: dmIn.teams,
    },
    teamsTimers,
  );

  /** Logged in anew each time: nobody stays so through a shift. */
  async function board(person: string) {
    const made = visitor({ board: potbell.board });
    const response = await made.post('/login', { who: person, pin: site.demoPins[person] ?? '' });
    if (response.status !== 303) throw new Error(`${person} is not let in: ${response.status}`);
    return made;
  }
  let pressed = 0;
  return {
    ...shared,
    clock,
    linked,
    onSlack,
    onTeams,
    /** Presses a button on the board, as a browser without a script. */
    async pressOnBoard(person: string, input: CommandInput): Promise<void> {
      pressed += 1;
      const lines = async () => (await store.journal(`${place.id}:${DATE}`)).length;
      const before = await lines();
      const action = encodeAction({ kind: 'do', command: commandSchema.parse(input) });
      const fields = { _command: `press-${1000 + pressed}`, _action: action };
      const response = await (await board(person)).post('/do', fields);
      if (response.status !== 303 || (await lines()) === before)
        throw new Error(`${input.type} by ${person}: ${response.status} ${await response.text()}`);
    },
    pageOf: async (person: string, path = '/') => (await board(person)).page(path),
    async close() {
      teams.httpTo(null);
      await potbell.stop();
      await slack.close();
      await teams.close();
    },
  };
}

export type Three = Awaited<ReturnType<typeof openThree>>;
