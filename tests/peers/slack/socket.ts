/**
 * Socket Mode: tickets from apps.connections.open, hello, envelopes and their acks.
 * docs.slack.dev/apis/events-api/using-socket-mode.
 */
import { randomUUID } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { type WebSocket, WebSocketServer } from 'ws';
import type { PeerClock } from './clock.ts';
import { type Dict, dict, parsed, text } from './json.ts';
import type { Outcome } from './types.ts';

/** The app has 3 seconds to ack (docs.slack.dev, acknowledgement), here of the peer's clock. */
export const ACK_LIMIT = 3000;

export type Envelope = { envelope_id: string; type: string; payload: Dict } & Dict;

export type Sockets = {
  ticket(): string;
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
  count(): number;
  /** How many connections there have been since the start. */
  opened(): number;
  send(envelope: Envelope): Promise<Outcome>;
  recycle(reason: string): void;
  cut(): void;
  /** Closes every connection in the orderly way and waits until it is gone. */
  farewell(): Promise<void>;
};

type Waiting = { socket: WebSocket; done: (outcome: Outcome) => void };

export function startSockets(clock: PeerClock, appId: string): Sockets {
  const server = new WebSocketServer({ noServer: true });
  const tickets = new Set<string>();
  const live: WebSocket[] = [];
  const waiting = new Map<string, Waiting>();
  let opened = 0;
  let turn = 0;

  function gone(socket: WebSocket): void {
    const at = live.indexOf(socket);
    if (at >= 0) live.splice(at, 1);
    for (const [id, one] of waiting) {
      if (one.socket !== socket) continue;
      waiting.delete(id);
      one.done({ acked: false, status: 'connection_closed', body: {} });
    }
  }

  function heard(raw: string): void {
    const said = dict(parsed(raw));
    const id = text(said.envelope_id);
    const one = waiting.get(id);
    if (one === undefined) return;
    waiting.delete(id);
    one.done({ acked: true, status: 'socket', body: dict(said.payload) });
  }

  function welcome(socket: WebSocket): void {
    socket.on('message', (data) => heard(String(data)));
    socket.on('close', () => gone(socket));
    // A client that goes without a word shows as an error first; the close that follows does the work.
    socket.on('error', () => socket.terminate());
    live.push(socket);
    opened += 1;
    socket.send(
      JSON.stringify({
        type: 'hello',
        num_connections: live.length,
        debug_info: { host: 'loopback', approximate_connection_time: 18060 },
        connection_info: { app_id: appId },
      }),
    );
  }

  return {
    ticket() {
      const ticket = randomUUID();
      tickets.add(ticket);
      return ticket;
    },
    upgrade(request, socket, head) {
      const ticket = new URL(request.url ?? '/', 'http://loopback').searchParams.get('ticket') ?? '';
      // A ticket is good for one connection.
      if (!tickets.delete(ticket)) {
        socket.end('HTTP/1.1 401 Unauthorized\r\nconnection: close\r\n\r\n');
        return;
      }
      server.handleUpgrade(request, socket, head, welcome);
    },
    count: () => live.length,
    opened: () => opened,
    send(envelope) {
      const socket = live[turn % Math.max(1, live.length)];
      turn += 1;
      if (socket === undefined) return Promise.resolve({ acked: false, status: 'no_connection', body: {} });
      return new Promise((resolve) => {
        const id = envelope.envelope_id;
        const stop = clock.at(clock.now() + ACK_LIMIT, () => {
          waiting.delete(id);
          resolve({ acked: false, status: 'timeout', body: {} });
        });
        const done = (outcome: Outcome): void => {
          stop();
          resolve(outcome);
        };
        waiting.set(id, { socket, done });
        socket.send(JSON.stringify(envelope));
      });
    },
    recycle(reason) {
      for (const socket of [...live]) {
        socket.send(JSON.stringify({ type: 'disconnect', reason, debug_info: { host: 'loopback' } }));
        socket.close(1000);
        gone(socket);
      }
    },
    cut() {
      for (const socket of [...server.clients]) {
        gone(socket);
        socket.terminate();
      }
    },
    async farewell() {
      const closing = [...server.clients].map((socket) => {
        const closed = new Promise<void>((resolve) => {
          socket.once('close', () => resolve());
        });
        socket.close(1000);
        return closed;
      });
      await Promise.all(closing);
    },
  };
}
