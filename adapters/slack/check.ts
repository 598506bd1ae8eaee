import { type FetchFunction, LogLevel, WebClient, type WebClientOptions } from '@slack/web-api';
import type { Person, Site } from '../../src/model/site.ts';
import { type Finding, good, mend, note } from '../chat/finding.ts';
import { type Answer, ask, SlackAway } from './ask.ts';
import { type SlackConfig, shownToken } from './config.ts';
import { scopes } from './manifest.ts';

export interface SlackCheck {
  readonly config: SlackConfig;
  readonly site: Pick<Site, 'slack'>;
  readonly people: readonly Person[];
  /** In place of the global one. */
  readonly fetch?: FetchFunction;
}

const REINSTALL = 'On the app\'s page: OAuth & Permissions, then "Reinstall"';
const GONE_TOKENS = ['invalid_auth', 'not_authed', 'token_revoked', 'token_expired', 'account_inactive'];

/**
 * Look whether Slack is set up for this site. It only asks: nothing is posted, opened or changed. A network that fails
 * is a finding; it rejects only for a fault of ours.
 */
export async function checkSlack(check: SlackCheck): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  try {
    for await (const one of findings(check)) found.push(one);
  } catch (error) {
    if (!(error instanceof SlackAway)) throw error;
    found.push(
      mend(
        `${error.message} What comes after this was not looked at; try again. The board does not need Slack: it goes on, and bells ring there.`,
      ),
    );
  }
  return [...found, ...unlinked(check.people)];
}

async function* findings(check: SlackCheck): AsyncGenerator<Finding> {
  const { config, site, people } = check;
  const web = new WebClient(config.botToken, clientOptions(check));
  const who = await ask(web.auth.test({}));
  if (who.ok) {
    const { team, user, response_metadata } = who.value;
    yield good(`Bot token: it is "${user}" in the workspace ${JSON.stringify(team)}.`);
    yield* scopeFindings(response_metadata?.scopes);
  } else yield mend(tokenRefused('Bot token', config.botToken, who));

  yield* wayFindings(check);
  if (!who.ok) return;
  yield await channelFinding(web, site.slack?.channel ?? null, who.value.user ?? 'potbell');
  for (const person of people)
    if (person.slack !== undefined) yield await personFinding(web, person, person.slack);
}

function clientOptions({ config, fetch }: SlackCheck): WebClientOptions {
  return {
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: 10_000,
    // What it would log is thrown as well, and becomes a finding.
    logLevel: LogLevel.ERROR,
    ...(config.apiUrl === null ? {} : { slackApiUrl: config.apiUrl }),
    ...(fetch === undefined ? {} : { fetch }),
  };
}

function scopeFindings(held: readonly string[] | undefined): readonly Finding[] {
  if (held === undefined) return [note('Scopes: Slack did not tell which ones the token has.')];
  const wanted = scopes.map(({ scope }) => scope);
  const missing = scopes.filter(({ scope }) => !held.includes(scope));
  const more = held.filter((scope) => scope !== '' && !wanted.includes(scope));
  return [
    ...missing.map(({ scope, why }) =>
      mend(
        `Scope ${scope} is missing, needed to ${why}. Renew the manifest (potbell slack manifest). ${REINSTALL}.`,
      ),
    ),
    ...(missing.length === 0 ? [good(`Scopes: all ${wanted.length} that Potbell needs.`)] : []),
    ...(more.length === 0
      ? []
      : [
          note(
            `Scopes that Potbell does not need: ${more.join(', ')}. Take them out of the app if nobody else does.`,
          ),
        ]),
  ];
}

async function* wayFindings(check: SlackCheck): AsyncGenerator<Finding> {
  const { way } = check.config;
  if (way.kind === 'http') {
    yield note(
      `HTTP: the signing secret and the way to port ${way.port} cannot be checked from here. Slack tries them when you save the Request URL while Potbell runs.`,
    );
    return;
  }
  const app = new WebClient(way.appToken, clientOptions(check));
  const opened = await ask(app.apps.connections.open({}));
  if (opened.ok) yield good('App token: Slack lets Potbell connect (Socket Mode).');
  else if (opened.code === 'missing_scope')
    yield mend(
      'App token: it lacks the scope connections:write. Make a new one: Basic Information, App-Level Tokens.',
    );
  else yield mend(tokenRefused('App token', way.appToken, opened));
}

async function channelFinding(web: WebClient, id: string | null, bot: string): Promise<Finding> {
  if (id === null)
    return mend(
      'Crew channel: none is given, so briefings and bells for everybody have no place. Write "slack: { channel: C… }" into site.yaml.',
    );
  const invite = `In the channel, write: /invite @${bot}`;
  const found = await ask(web.conversations.info({ channel: id }));
  if (!found.ok)
    return mend(
      found.code === 'channel_not_found'
        ? `Crew channel ${id}: there is none with this id, or it is private and Potbell is not in it. Check slack.channel in site.yaml. ${invite}`
        : refused(`Crew channel ${id}`, 'conversations.info', found),
    );
  const { name, is_archived, is_member } = found.value.channel ?? {};
  const called = `Crew channel ${id} (#${name})`;
  if (is_archived === true)
    return mend(
      `${called} is archived: nothing can be posted there. Unarchive it, or write another into site.yaml.`,
    );
  return is_member === true
    ? good(`${called}: Potbell is in it.`)
    : mend(`${called}: Potbell is not in it. ${invite}`);
}

async function personFinding(web: WebClient, { name }: Person, member: string): Promise<Finding> {
  const again = 'Copy the id again from the profile in Slack into people.yaml';
  const found = await ask(web.users.info({ user: member }));
  if (!found.ok)
    return mend(
      /^users?_not_(found|visible)$/.test(found.code)
        ? `${name}: there is no ${member} in this workspace. ${again}.`
        : refused(`${name} (${member})`, 'users.info', found),
    );
  const { deleted, is_bot, real_name, name: handle } = found.value.user ?? {};
  const shown = JSON.stringify(real_name || handle);
  if (deleted === true)
    return mend(`${name}: ${member}, ${shown} in Slack, is deactivated. ${again}, or take it out.`);
  // Slack's own helper is no bot by that flag.
  if (is_bot === true || member === 'USLACKBOT')
    return mend(`${name}: ${member} is an app, ${shown}, and no person. ${again}.`);
  return good(
    `${name}: ${member} is ${shown} in Slack. If that is somebody else, they would sign as ${name}.`,
  );
}

function unlinked(people: readonly Person[]): readonly Finding[] {
  const names = people.filter(({ slack }) => slack === undefined).map(({ name }) => name);
  if (names.length === 0) return [];
  const how =
    'Under each name in people.yaml, write "slack: U…" with the member id from the profile in Slack';
  if (names.length === people.length)
    return [
      mend(`Nobody in people.yaml has a Slack member id, so nobody can be reached or sign there. ${how}.`),
    ];
  return [
    note(
      `Not in Slack: ${names.join(', ')}. They read, answer and sign on the board, and their bells ring there. ${how}, for whom Slack is to reach.`,
    ),
  ];
}

type Refused = Extract<Answer<never>, { ok: false }>;

function tokenRefused(what: string, token: string, answer: Refused): string {
  const shown = `${what} ${shownToken(token)}`;
  if (GONE_TOKENS.includes(answer.code))
    return `${shown} Slack does not accept it (${answer.code}): mistyped, revoked, or of an app that was removed. Copy it again from the app's page.`;
  if (answer.code === 'not_allowed_token_type')
    return `${shown} is another kind of token than is needed here. Copy it again from the app's page.`;
  return refused(shown, what === 'Bot token' ? 'auth.test' : 'apps.connections.open', answer);
}

function refused(what: string, method: string, { code, needed }: Refused): string {
  if (code === 'missing_scope')
    return `${what}: the token lacks the scope ${needed ?? 'for it'}. Renew the manifest (potbell slack manifest). ${REINSTALL}.`;
  return `${what}: Slack refuses with "${code}". What that means stands at https://docs.slack.dev/reference/methods/${method}`;
}
