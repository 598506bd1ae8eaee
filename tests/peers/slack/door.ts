/** The loopback listener: opens and shuts, so that a shut door refuses connections as a dead host does. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Sockets } from './socket.ts';
import type { WebApi } from './web-api.ts';

export type Door = { port(): number; open(): Promise<void>; shut(): Promise<void> };

export function startDoor(api: WebApi, sockets: Sockets): Door {
  const server: Server = createServer((request, response) => {
    api(request, response).catch((error: unknown) => {
      // A fault of the peer itself: say it where the test will see it.
      response.statusCode = 500;
      response.end(`the peer failed: ${error instanceof Error ? error.stack : String(error)}`);
    });
  });
  server.on('upgrade', (request, socket, head) => sockets.upgrade(request, socket, head));
  let port = 0;
  return {
    port: () => port,
    open: () =>
      new Promise((resolve, reject) => {
        if (server.listening) return resolve();
        server.once('error', reject);
        server.listen(port, '127.0.0.1', () => {
          server.off('error', reject);
          port = portOf(server.address());
          resolve();
        });
      }),
    shut: () =>
      new Promise((resolve) => {
        sockets.cut();
        if (!server.listening) return resolve();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function portOf(address: AddressInfo | string | null): number {
  if (address === null || typeof address === 'string')
    throw new Error('The peer is not listening on a port.');
  return address.port;
}
