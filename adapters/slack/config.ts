import { givenIn, readApiUrl, readPort } from '../chat/variables.ts';

/** How Slack reaches Potbell: over a connection that Potbell opens, or by requests to a port of its own. */
export type SlackWay =
  | { readonly kind: 'socket'; readonly appToken: string }
  | { readonly kind: 'http'; readonly signingSecret: string; readonly port: number };

/** Holds secrets: never log it, never put it into a message. `shownToken` is what may be shown of one. */
export interface SlackConfig {
  readonly botToken: string;
  readonly way: SlackWay;
  /** Ends with a slash. Null: Slack itself. */
  readonly apiUrl: string | null;
}

export type ReadSlackConfig =
  | { readonly kind: 'none' }
  | { readonly kind: 'ok'; readonly config: SlackConfig }
  | { readonly kind: 'bad'; readonly problems: readonly string[] };

const BOT = 'POTBELL_SLACK_BOT_TOKEN';
const APP = 'POTBELL_SLACK_APP_TOKEN';
const SECRET = 'POTBELL_SLACK_SIGNING_SECRET';
const PORT = 'POTBELL_SLACK_PORT';
const API = 'POTBELL_SLACK_API_URL';

/** The variables read here, in the order in which their problems are told. */
export const slackVariables = [BOT, APP, SECRET, PORT, API] as const;
type Variable = (typeof slackVariables)[number];

const places = {
  [BOT]: 'OAuth & Permissions, Bot User OAuth Token (there once the app is installed)',
  [APP]: 'Basic Information, App-Level Tokens (one with the scope connections:write)',
  [SECRET]: 'Basic Information, Signing Secret',
} as const;

/** As much of a token as may be shown: enough to see which kind it is. */
export function shownToken(token: string): string {
  return `${token.slice(0, 5)}…`;
}

/**
 * The Slack configuration in the environment. A variable that is set to nothing counts as not set. Every problem is a
 * sentence: which variable, what is wrong, how to mend it; no secret stands in any.
 */
export function readSlackConfig(env: Readonly<Record<string, string | undefined>>): ReadSlackConfig {
  const given = givenIn(env, slackVariables);
  if (given.size === 0) return { kind: 'none' };

  const problems: string[] = [];
  const botToken = given.get(BOT);
  if (botToken === undefined)
    problems.push(`${BOT} is missing. Copy it from the app's page: ${places[BOT]}; it begins with xoxb-.`);
  else problems.push(...tokenProblems(BOT, botToken, 'xoxb-'));
  const way = readWay(given, problems);
  // The token is sent to this address, so it goes in the clear to this machine only.
  const apiUrl = readApiUrl(
    { name: API, text: given.get(API), title: 'Slack', such: 'https://slack.com/api/' },
    ({ protocol }, isLoopback) =>
      protocol === 'https:' || (protocol === 'http:' && isLoopback)
        ? null
        : 'neither https nor on this machine, so the tokens could be read on the way',
    problems,
  );

  if (problems.length > 0 || botToken === undefined || way === null) return { kind: 'bad', problems };
  return { kind: 'ok', config: { botToken, way, apiUrl } };
}

function readWay(given: ReadonlyMap<Variable, string>, problems: string[]): SlackWay | null {
  const appToken = given.get(APP);
  const signingSecret = given.get(SECRET);
  const portText = given.get(PORT);
  if (appToken !== undefined) {
    problems.push(...tokenProblems(APP, appToken, 'xapp-'));
    for (const name of [SECRET, PORT] as const)
      if (given.has(name))
        problems.push(
          `${name} is set beside ${APP}, and Slack takes one way only. Take ${name} out (Socket Mode), or take ${APP} out (HTTP).`,
        );
    return { kind: 'socket', appToken };
  }
  if (signingSecret === undefined && portText === undefined) {
    problems.push(
      `${APP} is missing. Copy it from the app's page: ${places[APP]}; it begins with xapp-. A site that Slack can reach by https sets ${SECRET} and ${PORT} instead.`,
    );
    return null;
  }
  if (signingSecret === undefined)
    problems.push(
      `${SECRET} is missing, and without it anybody could press in anybody's name. Copy it from the app's page: ${places[SECRET]}.`,
    );
  // A secret is shown in no part: unlike a token it has no beginning that says what it is.
  else if (/^x(oxb|oxp|app)-/.test(signingSecret))
    problems.push(`${SECRET} holds a token. Copy the secret from the app's page: ${places[SECRET]}.`);
  else if (!/^[\x21-\x7e]{8,}$/.test(signingSecret))
    problems.push(
      `${SECRET} is shorter than 8 characters or has a space in it. Copy it again from the app's page: ${places[SECRET]}.`,
    );
  if (portText === undefined)
    problems.push(
      `${PORT} is missing. Write the port on which your https proxy hands Slack's requests over, such as 8732.`,
    );
  const port = portText === undefined ? null : readPort(PORT, portText, problems);
  return signingSecret === undefined ? null : { kind: 'http', signingSecret, port: port ?? 0 };
}

function tokenProblems(name: typeof BOT | typeof APP, token: string, begins: string): readonly string[] {
  const again = `Copy it from the app's page: ${places[name]}.`;
  if (!token.startsWith(begins))
    return [`${name} does not begin with ${begins}. Found "${shownToken(token)}". ${again}`];
  // What is no part of a token (a line break, a quote, the end of a comment) would make every call fail unexplained.
  if (!/^[A-Za-z0-9-]+$/.test(token.slice(begins.length)))
    return [
      token === begins
        ? `${name} ends after ${begins}. ${again}`
        : `${name} has a character in it that no token has (a space, a quote?). Found "${shownToken(token)}". ${again}`,
    ];
  return [];
}
