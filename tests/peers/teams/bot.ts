/** A CloudAdapter of the real package on plain node:http, put up against the peer. Nothing of it reaches the internet. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { CloudAdapter, ConfigurationBotFrameworkAuthentication, type TurnContext } from 'botbuilder';
import { bytesOf } from '../slack/body.ts';
import { dict, isDict, parsed, text } from '../slack/json.ts';
import type { TeamsPeer } from './peer.ts';

export type Running = { adapter: CloudAdapter; url: string; stop: () => Promise<void> };

type Factory = NonNullable<ConstructorParameters<typeof ConfigurationBotFrameworkAuthentication>[1]>;

/** Asks the peer for a token, as the platform's own library does elsewhere: that one takes no plain http. */
export async function fetchToken(teams: TeamsPeer): Promise<{ token: string; livesMs: number }> {
  const response = await fetch(teams.tokenUrl, {
    method: 'POST',
    body: new URLSearchParams({
      grant_type: 'client_credentials',
      client_id: teams.bot.appId,
      client_secret: teams.bot.password,
      scope: teams.scope,
    }),
  });
  const body = dict(await response.json());
  if (response.status !== 200) throw new Error(`No token: ${response.status} ${JSON.stringify(body)}`);
  return { token: text(body.access_token), livesMs: Number(body.expires_in) * 1000 };
}

/** Keeps a token until the peer's clock says that it is over. */
function credentials(teams: TeamsPeer): Factory {
  let held: { token: string; until: number } | null = null;
  async function token(): Promise<string> {
    if (held !== null && held.until > teams.clock.now()) return held.token;
    const fresh = await fetchToken(teams);
    held = { token: fresh.token, until: teams.clock.now() + fresh.livesMs };
    return fresh.token;
  }
  return {
    isValidAppId: async (appId) => appId === teams.bot.appId,
    // True would let every token pass.
    isAuthenticationDisabled: async () => false,
    createCredentials: async () => ({
      signRequest: async (request) => {
        request.headers.set('authorization', `Bearer ${await token()}`);
        return request;
      },
    }),
  };
}

async function handle(
  adapter: CloudAdapter,
  turn: (context: TurnContext) => Promise<void>,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const body = parsed((await bytesOf(request)).toString('utf8'));
  const { method, headers } = request;
  const asked = { headers, ...(isDict(body) ? { body } : {}), ...(method === undefined ? {} : { method }) };
  await adapter.process(
    asked,
    {
      socket: request.socket,
      status: (code) => {
        response.statusCode = code;
      },
      header: (name, value) => response.setHeader(name, String(value)),
      send: (value) => {
        const words = typeof value === 'string';
        response.setHeader('content-type', words ? 'text/plain' : 'application/json');
        response.write(words ? value : JSON.stringify(value));
      },
      end: () => response.end(),
    },
    turn,
  );
}

export async function startBot(
  teams: TeamsPeer,
  turn: (context: TurnContext) => Promise<void>,
): Promise<Running> {
  const settings = { ...teams.settings };
  const adapter = new CloudAdapter(new ConfigurationBotFrameworkAuthentication(settings, credentials(teams)));
  const server = createServer((request, response) => {
    handle(adapter, turn, request, response).catch((error: unknown) => {
      response.statusCode = 500;
      response.end(String(error));
    });
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The bot is not listening on a port.');
  const url = `http://127.0.0.1:${address.port}/api/messages`;
  teams.httpTo(url);
  const stop = (): Promise<void> =>
    new Promise((resolve) => {
      teams.httpTo(null);
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return { adapter, url, stop };
}
