import { givenIn, readApiUrl, readPort } from '../chat/variables.ts';

/** Holds a secret: never log it, never put it into a message. */
export interface TeamsConfig {
  readonly appId: string;
  readonly appSecret: string;
  readonly tenantId: string;
  /** Where the requests of Teams come in, behind an https proxy; 0 takes any free port. */
  readonly port: number;
  /** A Teams on this machine, for tests; ends with a slash. Null: Teams itself. */
  readonly apiUrl: string | null;
}

export type ReadTeamsConfig =
  | { readonly kind: 'none' }
  | { readonly kind: 'ok'; readonly config: TeamsConfig }
  | { readonly kind: 'bad'; readonly problems: readonly string[] };

const APP = 'POTBELL_TEAMS_APP_ID';
const SECRET = 'POTBELL_TEAMS_APP_SECRET';
const TENANT = 'POTBELL_TEAMS_TENANT_ID';
const PORT = 'POTBELL_TEAMS_PORT';
const API = 'POTBELL_TEAMS_API_URL';

/** The variables read here, in the order in which their problems are told. */
export const teamsVariables = [APP, SECRET, TENANT, PORT, API] as const;
type Variable = (typeof teamsVariables)[number];
type Given = ReadonlyMap<Variable, string>;

const places = {
  [APP]: 'the app registration in Microsoft Entra, Overview, Application (client) ID',
  [SECRET]: 'the app registration in Microsoft Entra, Certificates & secrets, the Value of a client secret',
  [TENANT]: 'the app registration in Microsoft Entra, Overview, Directory (tenant) ID',
} as const;

/** RFC 9562 section 4: 32 hexadecimal digits in five groups. */
export const guid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * The Teams configuration in the environment. A variable that is set to nothing counts as not set. Every problem is a
 * sentence: which variable, what is wrong, how to mend it; no secret stands in any.
 */
export function readTeamsConfig(env: Readonly<Record<string, string | undefined>>): ReadTeamsConfig {
  const given = givenIn(env, teamsVariables);
  if (given.size === 0) return { kind: 'none' };

  const problems: string[] = [];
  const appId = readGuid(given, APP, problems);
  const appSecret = readSecret(given, problems);
  const tenantId = readGuid(given, TENANT, problems);
  const port = portOf(given.get(PORT), problems);
  // Whoever answers there says which requests are genuine: so it is on this machine, or it is not taken.
  const apiUrl = readApiUrl(
    { name: API, text: given.get(API), title: 'Teams', such: 'http://127.0.0.1:4000/' },
    ({ protocol }, isLoopback) =>
      isLoopback && /^https?:$/.test(protocol)
        ? null
        : "not on this machine, and whoever answers there could press in anybody's name",
    problems,
  );
  if (problems.length > 0 || appId === null || appSecret === null || tenantId === null || port === null)
    return { kind: 'bad', problems };
  return { kind: 'ok', config: { appId, appSecret, tenantId, port, apiUrl } };
}

function readGuid(given: Given, name: typeof APP | typeof TENANT, problems: string[]): string | null {
  const text = given.get(name);
  const copy = `Copy it from ${places[name]}; it looks like 00000000-0000-0000-0000-000000000000.`;
  if (text === undefined) problems.push(`${name} is missing. ${copy}`);
  // What stands there may be the secret, in the wrong variable: it is not shown.
  else if (!guid.test(text)) problems.push(`${name} is no id. ${copy}`);
  else return text.toLowerCase();
  return null;
}

function readSecret(given: Given, problems: string[]): string | null {
  const text = given.get(SECRET);
  const copy = `Copy it from ${places[SECRET]}; it is shown once, when the secret is made.`;
  if (text === undefined) problems.push(`${SECRET} is missing. ${copy}`);
  else if (guid.test(text)) problems.push(`${SECRET} holds an id, perhaps the Secret ID. ${copy}`);
  else if (!/^[\x21-\x7e]{8,}$/.test(text))
    problems.push(`${SECRET} is shorter than 8 characters or has a space in it. ${copy}`);
  else return text;
  return null;
}

function portOf(text: string | undefined, problems: string[]): number | null {
  if (text === undefined)
    problems.push(
      `${PORT} is missing. Write the port on which your https proxy hands the requests of Teams over, such as 8733.`,
    );
  else return readPort(PORT, text, problems);
  return null;
}
