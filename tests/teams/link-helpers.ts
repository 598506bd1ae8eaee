import {
  type AuthServices,
  createTeamsAuth,
  type TeamsAuth,
  type Verified,
} from '../../adapters/teams/auth.ts';
import type { TeamsConfig } from '../../adapters/teams/config.ts';
import { type Answer, type Link, linkTo, PATH } from '../../adapters/teams/link.ts';
import { type PeerOptions, startTeamsPeer, type TeamsPeer } from '../peers/teams/peer.ts';
import { YARD } from '../peers/teams/world.ts';

export interface Linked {
  readonly teams: TeamsPeer;
  readonly auth: TeamsAuth;
  readonly config: TeamsConfig;
  readonly link: Link;
  /** Where requests go. */
  readonly url: string;
  /** What was verified and handed on. */
  readonly heard: Verified[];
  /** All lines that were logged, facts and words. */
  readonly logged: string[];
}

export const configOf = (teams: TeamsPeer): TeamsConfig => ({
  appId: teams.bot.appId,
  appSecret: teams.bot.password,
  tenantId: teams.bot.tenantId,
  port: 0,
  apiUrl: `${new URL(teams.serviceUrl()).origin}/`,
});

/** A log that keeps its lines. */
export function keptLog() {
  const logged: string[] = [];
  const keep = (facts: object, words: string): void => {
    const plain = Object.entries(facts).map(([name, value]) => [
      name,
      value instanceof Error ? String(value) : value,
    ]);
    logged.push(`${JSON.stringify(Object.fromEntries(plain))} ${words}`);
  };
  return { logged, log: { info: keep, warn: keep, error: keep } };
}

/** A Teams on the loopback with our own door before it. */
export async function withLink(
  test: (linked: Linked) => Promise<void>,
  take: (activity: Verified, linked: Linked) => Promise<Answer> = async () => ({ status: 200, body: null }),
  options: Partial<PeerOptions> & { readonly auth?: Partial<AuthServices> } = {},
): Promise<void> {
  const teams = await startTeamsPeer({ ...YARD, ...options });
  const { logged, log } = keptLog();
  const config = configOf(teams);
  const auth = createTeamsAuth({ config, log, ...options.auth });
  const heard: Verified[] = [];
  const link = linkTo(auth, config.port, log, async (activity) => {
    heard.push(activity);
    return take(activity, linked);
  });
  await link.open();
  const url = `http://127.0.0.1:${link.port()}${PATH}`;
  const linked: Linked = { teams, auth, config, link, url, heard, logged };
  teams.httpTo(url);
  try {
    await test(linked);
  } finally {
    teams.httpTo(null);
    await link.close();
    await teams.close();
  }
}
