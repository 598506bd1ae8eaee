/** Everything over HTTP: the issuer's documents, the bot's token, the connector; and the faults asked for. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { bytesOf } from '../slack/body.ts';
import { dict, parsed, text } from '../slack/json.ts';
import { type Asked, askedBy, perform } from './connector.ts';
import type { Faults } from './faults.ts';
import { storeBytes } from './files.ts';
import type { IssuerKeys } from './keys.ts';
import type { OAuth } from './oauth.ts';
import type { Rates } from './rate.ts';
import { Refused } from './refusal.ts';
import type { World } from './state.ts';
import { ISSUER } from './tokens.ts';
import type { Call, Fault } from './types.ts';

export type Parts = {
  world: World;
  keys: IssuerKeys;
  oauth: OAuth;
  rates: Rates | null;
  faults: Faults;
  origin: () => string;
  /** Such as /emea: what stands before /v3 in the service URL. */
  region: () => string;
};

type Answer = { status: number; body: unknown; retryAfter?: number };
type Coming = Asked & { header: string; form: string; range: string; bytes: Uint8Array };

export function startWeb(
  parts: Parts,
): (request: IncomingMessage, response: ServerResponse) => Promise<void> {
  const { world, keys, oauth, rates, faults, origin } = parts;

  function coming(request: IncomingMessage, url: URL, bytes: Buffer): Coming {
    const raw = bytes.toString('utf8');
    const { authorization, 'content-range': range } = request.headers;
    const rest = { header: text(authorization), form: raw, range: text(range), bytes };
    const method = request.method ?? 'GET';
    const plain = { method, conversation: '', target: url.pathname, query: url.searchParams, body: raw };
    if (method === 'GET' && url.pathname.startsWith('/openid/'))
      return { ...plain, ...rest, operation: 'openid' };
    if (method === 'GET' && url.pathname === '/keys') return { ...plain, ...rest, operation: 'keys' };
    if (method === 'POST' && url.pathname === `/${world.bot.tenantId}/oauth2/v2.0/token`)
      return { ...plain, body: Object.fromEntries(new URLSearchParams(raw)), ...rest, operation: 'token' };
    if (method === 'PUT' && url.pathname.startsWith('/uploads/'))
      return { ...plain, body: raw, ...rest, operation: 'uploadFile' };
    const region = parts.region();
    const path = url.pathname.startsWith(`${region}/`) ? url.pathname.slice(region.length) : url.pathname;
    const known = path === url.pathname ? 'unknown' : null;
    const asked = askedBy(method, path, url.searchParams, raw === '' ? undefined : parsed(raw));
    return { ...asked, ...rest, operation: known ?? asked.operation };
  }

  async function done(asked: Coming): Promise<Answer> {
    switch (asked.operation) {
      case 'openid':
        return {
          status: 200,
          body: {
            issuer: ISSUER,
            authorization_endpoint: `${origin()}/invalid`,
            jwks_uri: `${origin()}/keys`,
            id_token_signing_alg_values_supported: ['RS256'],
            token_endpoint_auth_methods_supported: ['private_key_jwt'],
          },
        };
      case 'keys':
        return { status: 200, body: { keys: keys.published } };
      case 'token':
        return oauth.grant(new URLSearchParams(asked.form));
      case 'uploadFile': {
        const { target, range, header: authorization, bytes } = asked;
        return storeBytes(world, target, { range, authorization }, bytes);
      }
      case 'createConversation':
      case 'sendToConversation':
      case 'replyToActivity':
      case 'updateActivity':
      case 'deleteActivity':
      case 'getMembers':
      case 'getMember':
      case 'getPagedMembers':
      case 'getActivityMembers':
      case 'unknown':
        await oauth.check(asked.header);
        return perform(world, rates, asked);
    }
  }

  async function run(asked: Coming): Promise<Answer> {
    try {
      return await done(asked);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      const { status, body, retryAfter } = error;
      return { status, body, ...(retryAfter === null ? {} : { retryAfter }) };
    }
  }

  return async (request, response) => {
    const url = new URL(request.url ?? '/', origin());
    const asked = coming(request, url, await bytesOf(request));
    const { operation, method, conversation, target, body } = asked;
    const at = world.clock.now();
    const note = (status: Call['status'], reply: unknown = {}): void => {
      const kept = Array.isArray(reply) ? { list: reply } : dict(reply);
      world.calls.push({
        operation,
        method,
        conversation,
        target,
        body,
        at,
        status,
        response: structuredClone(kept),
      });
    };
    const send = ({ status, body: reply, retryAfter }: Answer): void => {
      note(status, reply);
      response.statusCode = status;
      response.setHeader('content-type', 'application/json; charset=utf-8');
      if (retryAfter !== undefined) response.setHeader('retry-after', String(retryAfter));
      response.end(JSON.stringify(reply));
    };
    const fault = faults.take(operation, body);
    if (fault === undefined) return send(await run(asked));
    return faulty(fault, send, note, () => run(asked), request);
  };
}

async function faulty(
  fault: Fault,
  send: (answer: Answer) => void,
  note: (status: Call['status'], reply?: unknown) => void,
  run: () => Promise<Answer>,
  request: IncomingMessage,
): Promise<void> {
  const failed = (status: number): Answer => ({
    status,
    body: { error: { code: 'ServiceError', message: `The service failed with ${status}.` } },
  });
  switch (fault.kind) {
    case '429':
      return send({
        ...failed(429),
        ...(fault.retryAfter === undefined ? {} : { retryAfter: fault.retryAfter }),
      });
    case 'status':
      return send(failed(fault.status));
    case 'error': {
      const { status, body } = new Refused(fault.code, 'As the test asked.');
      return send({ status, body });
    }
    case 'accept-then-status':
      await run();
      return send(failed(fault.status));
    case 'hang': {
      if (fault.accepted !== true) return note('hangs');
      const { status, body } = await run();
      return note(status, body);
    }
    case 'accept-then-drop': {
      const { status, body } = await run();
      note(status, body);
      request.socket.destroy();
      return;
    }
    case 'drop':
      note('dropped');
      request.socket.destroy();
      return;
  }
}
