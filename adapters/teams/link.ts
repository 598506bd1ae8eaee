import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { listen } from '../chat/listen.ts';
import type { Log } from '../host/log.ts';
import type { TeamsAuth, Verified } from './auth.ts';

/** Bytes. A long sheet with everything typed into it is a tenth of this. */
export const MOST_BODY = 1024 * 1024;
/** ms, for a whole request; Teams sends it in one piece. */
const REQUEST_TIMEOUT_MS = 20_000;
export const PATH = '/api/messages';

/** What Teams is answered; the body is shown to who pressed. Null for none. */
export interface Answer {
  readonly status: number;
  readonly body: object | null;
}

/** How what happens in Teams comes in. */
export interface Link {
  /** @throws Error with a sentence that says why it does not open */
  open(): Promise<void>;
  close(): Promise<void>;
  /** The port it listens on; null while it is closed. */
  port(): number | null;
}

/** `take` gets verified activities only; what it throws is answered with 500 and logged, and Teams sends it again. */
export function linkTo(
  auth: TeamsAuth,
  port: number,
  log: Log,
  take: (activity: Verified) => Promise<Answer>,
): Link {
  const server = createServer((request, response) => {
    answerTo(request, auth, take).then(
      (answer) => end(request, response, answer),
      (error: unknown) => {
        log.error({ err: error }, 'something from Teams could not be worked out');
        end(request, response, plain(500));
      },
    );
  });
  server.requestTimeout = REQUEST_TIMEOUT_MS;
  const heard = (): number | null => {
    const address = server.address();
    return typeof address === 'object' && address !== null ? address.port : null;
  };
  return {
    async open() {
      if (server.listening) return;
      await listen(server, port);
      log.info({ port: heard() }, 'listening for Teams');
    },
    async close() {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
    port: heard,
  };
}

const plain = (status: number): Answer => ({ status, body: null });

async function answerTo(
  request: IncomingMessage,
  auth: TeamsAuth,
  take: (activity: Verified) => Promise<Answer>,
): Promise<Answer> {
  const [path] = (request.url ?? '').split('?');
  if (path !== PATH) return plain(404);
  if (request.method !== 'POST') return plain(405);
  const header = request.headers.authorization ?? '';
  // Before anything is read of it.
  if (!header.startsWith('Bearer ')) return plain(401);
  const bytes = await bodyOf(request);
  if (bytes === null) return plain(413);
  const given = objectIn(bytes);
  if (given === null) return plain(400);
  const checked = await auth.check(given, header);
  switch (checked.kind) {
    case 'forged':
      return plain(401);
    case 'foreign':
      return plain(403);
    case 'verified':
      return take(checked.activity);
  }
}

/** Null when it is too long; then the rest is not read. */
async function bodyOf(request: IncomingMessage): Promise<Buffer | null> {
  if (Number(request.headers['content-length'] ?? 0) > MOST_BODY) return null;
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of request.iterator({ destroyOnReturn: false })) {
    const bytes = Buffer.isBuffer(part) ? part : Buffer.from(String(part));
    length += bytes.length;
    if (length > MOST_BODY) return null;
    parts.push(bytes);
  }
  return Buffer.concat(parts);
}

function objectIn(bytes: Buffer): Readonly<Record<string, unknown>> | null {
  let data: unknown;
  try {
    data = JSON.parse(bytes.toString('utf8'));
  } catch {
    // Answered with 400: what Teams sends is JSON.
    return null;
  }
  return typeof data === 'object' && data !== null && !Array.isArray(data) ? { ...data } : null;
}

function end(request: IncomingMessage, response: ServerResponse, { status, body }: Answer): void {
  response.statusCode = status;
  if (status === 405) response.setHeader('allow', 'POST');
  // Not read to its end: what follows on this connection would be taken for a new request.
  if (!request.complete) response.setHeader('connection', 'close');
  if (body === null) {
    response.end();
    return;
  }
  response.setHeader('content-type', 'application/json; charset=utf-8');
  response.end(JSON.stringify(body));
}
