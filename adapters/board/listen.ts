import type { Server } from 'node:http';
import { serve } from '@hono/node-server';
import type { Hono } from 'hono';
import { isLoopback } from './host-names.ts';
import type { BoardParts } from './parts.ts';
import type { BoardEnv, RunningBoard } from './services.ts';

const LOOPBACK = '127.0.0.1';
const BEAT_MS = 15_000;
const CLOSE_MS = 2000;
const SWEEP_MS = 20;

/** Listen, and keep the open pages' connections beating. */
export async function listen(
  app: Hono<BoardEnv>,
  { live, hosts, services: { log, hostNames = [] } }: Pick<BoardParts, 'live' | 'hosts' | 'services'>,
  { host = LOOPBACK, port }: { readonly host?: string; readonly port: number },
): Promise<RunningBoard> {
  const { server, bound } = await bind(app, host, port);
  hosts.bind(host, bound);
  const url = `http://${host.includes(':') ? `[${host}]` : host}:${bound}`;
  if (!isLoopback(host)) {
    log.warn(
      { url, hostNames },
      'the board listens beyond this machine: PINs and pages cross the network unencrypted unless TLS stands in front',
    );
  }
  const beat = setInterval(live.beat, BEAT_MS);
  return {
    url,
    async stop() {
      clearInterval(beat);
      live.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      // A live page's connection falls idle only after its stream has ended.
      const sweep = setInterval(() => server.closeIdleConnections(), SWEEP_MS);
      const force = setTimeout(() => server.closeAllConnections(), CLOSE_MS);
      await closed;
      clearInterval(sweep);
      clearTimeout(force);
    },
  };
}

function bind(app: Hono<BoardEnv>, host: string, port: number): Promise<{ server: Server; bound: number }> {
  return new Promise((resolve, reject) => {
    const server = serve({ fetch: app.fetch, hostname: host, port }, (info) =>
      resolve({ server: server as Server, bound: info.port }),
    );
    server.once('error', (error: NodeJS.ErrnoException) => reject(listenError(error, host, port)));
  });
}

function listenError(error: NodeJS.ErrnoException, host: string, port: number): Error {
  const why: Readonly<Record<string, string>> = {
    EADDRINUSE: `another program already uses port ${port}; stop it or choose another port`,
    EACCES: `this user may not use port ${port}; choose one above 1023`,
    EADDRNOTAVAIL: `this machine has no address ${host}; use 127.0.0.1 for this machine alone or one of its own addresses`,
    ENOTFOUND: `the name ${host} is not known here; write an address such as 127.0.0.1`,
  };
  const reason = why[error.code ?? ''] ?? error.message;
  return new Error(`the board cannot listen on ${host}, port ${port}: ${reason}`, { cause: error });
}
