/** A small yard for the peer's own tests. All names are made up. */
import { type ActivityHandler, ActivityHandler as Handler, type TurnContext } from 'botbuilder';
import { type Dict, isDict } from '../slack/json.ts';
import { fetchToken, type Running, startBot } from './bot.ts';
import { type PeerOptions, startTeamsPeer, type TeamsPeer } from './peer.ts';
import { CARD } from './state.ts';

/** 2026-03-09 06:00 UTC. */
export const START = 1_773_036_000_000;

export const ANA = '29:ana';
export const BEN = '29:ben';
export const CLEO = '29:cleo';
export const TEAM = '19:yard@thread.tacv2';
export const DOCK = '19:dock@thread.tacv2';
export const CREW = '19:crew@thread.v2';

export const YARD: PeerOptions = {
  startAt: START,
  people: [
    { id: ANA, name: 'Ana', aadId: 'aad-ana' },
    { id: BEN, name: 'Ben', aadId: 'aad-ben', locale: 'pl-PL' },
    { id: CLEO, name: 'Cleo', aadId: 'aad-cleo', installed: false },
  ],
  teams: [{ id: TEAM, name: 'Yard', members: [ANA, BEN], channels: [{ id: DOCK, name: 'Dock two' }] }],
  chats: [{ id: CREW, members: [ANA, BEN, CLEO] }],
};

export async function withPeer(
  test: (teams: TeamsPeer) => Promise<void>,
  options: Partial<PeerOptions> = {},
): Promise<void> {
  const teams = await startTeamsPeer({ ...YARD, ...options });
  try {
    await test(teams);
  } finally {
    await teams.close();
  }
}

/** Starts a peer and a bot, runs the test, and stops both whatever happens. */
export function withBot(
  bot: ActivityHandler,
  test: (teams: TeamsPeer, running: Running) => Promise<void>,
  options: Partial<PeerOptions> = {},
): Promise<void> {
  return withTurn((context) => bot.run(context), test, options);
}

export function withTurn(
  turn: (context: TurnContext) => Promise<void>,
  test: (teams: TeamsPeer, running: Running) => Promise<void>,
  options: Partial<PeerOptions> = {},
): Promise<void> {
  return withPeer(async (teams) => {
    const running = await startBot(teams, turn);
    try {
      await test(teams, running);
    } finally {
      await running.stop();
    }
  }, options);
}

export const silent = new Handler();

export const words = (text: string): Dict => ({ type: 'message', text });

export const attached = (content: Dict): Dict => ({
  type: 'message',
  attachments: [{ contentType: CARD, content }],
});

export const card = (title: string, ...actions: Dict[]): Dict => ({
  type: 'AdaptiveCard',
  version: '1.5',
  body: [{ type: 'TextBlock', text: title, wrap: true }],
  actions,
});

export const execute = (title: string, verb: string, data: Dict = {}): Dict => ({
  type: 'Action.Execute',
  title,
  verb,
  data,
  fallback: { type: 'Action.Submit', title, data: { ...data, verb } },
});

export type Answered = { status: number; retryAfter: string | null; body: Dict };

/** One plain call to the connector; `path` starts with /v3. */
export async function call(
  teams: TeamsPeer,
  method: string,
  path: string,
  body?: unknown,
  token?: string,
): Promise<Answered> {
  const bearer = token ?? (await fetchToken(teams)).token;
  const response = await fetch(teams.serviceUrl().replace(/\/$/, path), {
    method,
    headers: {
      'content-type': 'application/json',
      ...(bearer === '' ? {} : { authorization: `Bearer ${bearer}` }),
    },
    ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });
  const answer: unknown = await response.json();
  const retryAfter = response.headers.get('retry-after');
  return { status: response.status, retryAfter, body: isDict(answer) ? answer : { list: answer } };
}

export const at = (conversation: string): string =>
  `/v3/conversations/${encodeURIComponent(conversation)}/activities`;

/** Posts it and gives its id. */
export async function posted(teams: TeamsPeer, conversation: string, activity: object): Promise<string> {
  const { status, body } = await call(teams, 'POST', at(conversation), activity);
  if (status !== 201) throw new Error(`Not posted: ${status} ${JSON.stringify(body)}`);
  return String(body.id);
}
