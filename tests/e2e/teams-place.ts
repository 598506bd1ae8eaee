import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type Env, site } from '../cli/potbell.ts';
import { type PeerOptions, startTeamsPeer, type TeamsPeer } from '../peers/teams/peer.ts';
import { editSite, member } from './teams-hands.ts';

/** The demo's crew in an invented organisation, and somebody of it who is in no site pack. The app is nowhere yet. */
const { people } = site.pack;
export const TEAM = '19:span-2-team@thread.tacv2';
export const SAM = { id: member('sam'), name: 'Sam', aadId: '00000000-0000-4000-8000-0000000000ff' };

/** Of the app in Microsoft Entra. */
export interface AppIds {
  readonly appId: string;
  readonly tenantId: string;
  readonly secret: string;
}

/** `objectIds` by person. The clock is the real one: the process on the other side has no other. */
export function startOrganisation(
  { appId, tenantId, secret }: AppIds,
  channel: string,
  objectIds: ReadonlyMap<string, string>,
  more: Pick<PeerOptions, 'limits'> = {},
): Promise<TeamsPeer> {
  return startTeamsPeer({
    ...more,
    startAt: Date.now(),
    live: true,
    botName: 'Potbell',
    appId,
    tenantId,
    appPassword: secret,
    people: [
      ...people.map(({ id, name }) => ({ id: member(id), name, aadId: objectIds.get(id) ?? '' })),
      SAM,
    ].map((one) => ({ ...one, installed: false })),
    teams: [
      {
        id: TEAM,
        name: 'Span 2',
        members: [...people.map(({ id }) => member(id)), SAM.id],
        channels: [{ id: channel, name: 'crew' }],
        installed: false,
      },
    ],
  });
}

/** An Object ID for everybody. */
export const madeUpIds: ReadonlyMap<string, string> = new Map(
  people.map(({ id }, at) => [id, `00000000-0000-4000-8000-${String(at + 101).padStart(12, '0')}`]),
);

/** The variables of a Potbell in front of this Teams, on any free port. */
export const environmentFor = (teams: TeamsPeer): Env => ({
  POTBELL_TEAMS_APP_ID: teams.bot.appId,
  POTBELL_TEAMS_TENANT_ID: teams.bot.tenantId,
  POTBELL_TEAMS_APP_SECRET: teams.bot.password,
  POTBELL_TEAMS_PORT: '0',
  POTBELL_TEAMS_API_URL: `${new URL(teams.serviceUrl()).origin}/`,
});

/** Writes the channel and everybody's id into a site pack: `channelLine` as it is to stand, and under each name such a `personLine`. */
export function writeDown(
  pack: string,
  channelLine: string,
  personLine: string,
  objectIds: ReadonlyMap<string, string>,
): void {
  editSite(pack, 'site.yaml', (text) => `${text}\n${channelLine}\n`);
  for (const { id, name } of people)
    editSite(pack, 'people.yaml', (text) =>
      text.replace(
        `- id: ${id}\n  name: ${name}\n`,
        (entry) => `${entry}${personLine.replace(/\S+$/, objectIds.get(id) ?? '')}\n`,
      ),
    );
}

/**
 * Microsoft Entra's answers to an app that is asked for in the wrong tenant: `known` is another organisation, all else is
 * none. RFC 6749 section 5.2; AADSTS700016 and AADSTS90002 as they stand in public reports of them.
 */
export async function entraFor(known: string) {
  const server = createServer((request, response) => {
    const error = request.url === `/${known}/oauth2/v2.0/token` ? 'unauthorized_client' : 'invalid_request';
    response.writeHead(400, { 'content-type': 'application/json' });
    response.end(JSON.stringify({ error }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () => new Promise((resolve) => server.close(resolve)),
  };
}
