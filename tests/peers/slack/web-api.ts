/** The HTTP side: /api/METHOD, uploads and response_urls, with the faults that were asked for. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { argumentsIn, bytesOf, fileIn, readable } from './body.ts';
import type { Faults } from './faults.ts';
import { type Dict, parsed, text } from './json.ts';
import { methodCalled, wantsAppToken } from './methods/index.ts';
import { type Context, Refused } from './methods/method.ts';
import { answerResponse } from './response-url.ts';

export type Tokens = { app: string; bot: string; bad: boolean };
export type WebApi = (request: IncomingMessage, response: ServerResponse) => Promise<void>;
type Reply = { status: number; body: Dict; retryAfter?: number };

export function startWebApi(context: Context, faults: Faults, tokens: Tokens): WebApi {
  const { space } = context;

  function allowed(name: string, given: string): void {
    if (given === '') throw new Refused('not_authed');
    const wanted = wantsAppToken(name) ? tokens.app : tokens.bot;
    if (tokens.bad || (given !== tokens.app && given !== tokens.bot)) throw new Refused('invalid_auth');
    if (given !== wanted) throw new Refused('not_allowed_token_type');
  }

  function run(name: string, args: Dict, token: string): Reply {
    try {
      const method = methodCalled(name);
      if (method === undefined) throw new Refused('unknown_method', { req_method: name });
      allowed(name, token);
      const wait = context.rates.method(name);
      if (wait !== null) throw new Refused('ratelimited', {}, wait);
      return { status: 200, body: { ok: true, ...method(context, args) } };
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.retryAfter !== null) return { status: 429, body: error.reply, retryAfter: error.retryAfter };
      return { status: 200, body: error.reply };
    }
  }

  function send(response: ServerResponse, { status, body, retryAfter }: Reply): void {
    response.statusCode = status;
    response.setHeader('content-type', 'application/json; charset=utf-8');
    if (retryAfter !== undefined) response.setHeader('retry-after', String(retryAfter));
    response.end(JSON.stringify(body));
  }

  async function call(request: IncomingMessage, response: ServerResponse, url: URL): Promise<void> {
    const name = url.pathname.slice('/api/'.length);
    const type = text(request.headers['content-type']);
    const args = argumentsIn(url, type, await bytesOf(request));
    const bearer = text(request.headers.authorization).replace(/^Bearer /, '');
    const token = bearer || text(args.token);
    const at = space.clock.now();
    const note = (answer: Dict | string): void => {
      space.calls.push({ method: name, args: readable(args), at, response: structuredClone(answer) });
    };
    const done = (reply: Reply): void => {
      note(reply.body);
      send(response, reply);
    };
    const fault = faults.take(name);
    if (fault === undefined) return done(run(name, args, token));
    switch (fault.kind) {
      case '429':
        return done({ status: 429, body: { ok: false, error: 'ratelimited' }, retryAfter: fault.retryAfter });
      case 'status':
        return done({ status: fault.status, body: { ok: false, error: `http_${fault.status}` } });
      case 'error':
        return done({ status: 200, body: { ok: false, error: fault.error } });
      case 'hang':
        note(fault.accepted === true ? run(name, args, token).body : 'hangs');
        return;
      case 'drop':
        note('dropped');
        request.socket.destroy();
        return;
      case 'accept-then-drop':
        note(run(name, args, token).body);
        request.socket.destroy();
        return;
    }
  }

  async function upload(request: IncomingMessage, response: ServerResponse, id: string): Promise<void> {
    const bytes = await fileIn(text(request.headers['content-type']), await bytesOf(request));
    const file = space.files.get(id);
    const good = file !== undefined && !file.done && bytes.length === file.length;
    if (good) file.bytes = bytes;
    response.statusCode = good ? 200 : 400;
    response.end(
      good
        ? `OK - ${bytes.length}`
        : `upload ${id}: expected ${file?.length ?? 0} bytes, got ${bytes.length}`,
    );
  }

  return async (request, response) => {
    const url = new URL(request.url ?? '/', context.origin());
    const last = url.pathname.split('/').at(-1) ?? '';
    if (url.pathname.startsWith('/api/')) return call(request, response, url);
    if (url.pathname.startsWith('/upload/v1/')) return upload(request, response, last);
    if (url.pathname.startsWith('/response/')) {
      const { status, reply } = answerResponse(
        space,
        last,
        parsed((await bytesOf(request)).toString('utf8')),
      );
      return send(response, { status, body: reply });
    }
    response.statusCode = 404;
    response.end();
  };
}
