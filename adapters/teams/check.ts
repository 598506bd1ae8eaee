import type { Person, Site } from '../../src/model/site.ts';
import { type Finding, good, mend, note } from '../chat/finding.ts';
import type { TeamsConfig } from './config.ts';
import { failedCall } from './outcome.ts';
import { missingToken, type NoToken, tokensFor } from './token.ts';

export interface TeamsCheck {
  readonly config: TeamsConfig;
  readonly site: Pick<Site, 'teams'>;
  readonly people: readonly Person[];
  readonly tokenTimeoutMs?: number;
}

/** Nobody waits for this one but who set Teams up. */
const TOKEN_TIMEOUT_MS = 10_000;

/**
 * Microsoft's answer for a tenant that there is not (AADSTS90002, from public reports of it; RFC 6749 section 5.2 has the
 * first for anything that is asked wrongly). The network is in order then, and looking for a fault in it costs a morning.
 */
const noTenant: ReadonlySet<string> = new Set(['invalid_request', 'invalid_tenant']);

function withoutToken(none: NoToken): string {
  return none.code !== null && noTenant.has(none.code)
    ? `Microsoft answers, and most likely knows no organisation with this tenant id (${none.code}). Copy POTBELL_TEAMS_TENANT_ID anew from the app registration in Microsoft Entra, Overview, Directory (tenant) ID.`
    : failedCall(none).why;
}

/**
 * Look whether Teams is set up for this site, as far as it can be seen from here: a bot learns only from what is written
 * to it where the channel and the people are. Nothing is posted. A network that fails is a finding.
 */
export async function checkTeams(check: TeamsCheck): Promise<readonly Finding[]> {
  const { config, site, people, tokenTimeoutMs = TOKEN_TIMEOUT_MS } = check;
  const none = await missingToken(tokensFor(config, tokenTimeoutMs), config.appId);
  return [
    none === null
      ? good('App id, tenant and secret: Microsoft gives Potbell a token for them.')
      : mend(`App id, tenant and secret: ${withoutToken(none)}`),
    site.teams === undefined
      ? mend(
          'Crew channel: none is given, so briefings and bells for everybody have no place. Write into site.yaml: teams: { channel: "19:…@thread.tacv2" }',
        )
      : note(
          `Crew channel ${site.teams.channel}: whether the app is in its team cannot be seen from here. Name Potbell there once while it runs, with "help": the answer comes into your own chat. That this is the crew's channel shows with the first briefing.`,
        ),
    note(
      `The way from Teams to port ${config.port} cannot be checked from here. The messaging endpoint of the bot is the https address of your proxy with /api/messages behind it.`,
    ),
    ...linked(people),
  ];
}

function linked(people: readonly Person[]): readonly Finding[] {
  const names = people.filter(({ teams }) => teams === undefined).map(({ name }) => name);
  const how = 'Under each name in people.yaml, write "teams: …" with the Object ID from Microsoft Entra';
  if (names.length === people.length)
    return [
      mend(`Nobody in people.yaml has a Teams member id, so nobody can be reached or sign there. ${how}.`),
    ];
  const all = good(`${people.length - names.length} of ${people.length} people have a Teams member id.`);
  if (names.length === 0) return [all];
  return [
    all,
    note(
      `Not in Teams: ${names.join(', ')}. They read, answer and sign on the board, and their bells ring there. ${how}, for whom Teams is to reach.`,
    ),
  ];
}
