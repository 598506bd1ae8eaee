/** The loopback listener: opens and shuts, so that a shut door refuses connections as a dead host does. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';

export type Door = { port(): number; open(): Promise<void>; shut(): Promise<void> };

export function startDoor(web: (request: IncomingMessage, response: ServerResponse) => Promise<void>): Door {
  const server = createServer((request, response) => {
    web(request, response).catch((error: unknown) => {
      // A fault of the peer itself: say it where the test will see it. 501, as clients do not try that again.
      response.statusCode = 501;
      response.end(`the peer failed: ${error instanceof Error ? error.stack : String(error)}`);
    });
  });
  let port = 0;
  return {
    port: () => port,
    open: () =>
      new Promise((resolve, reject) => {
        if (server.listening) return resolve();
        server.once('error', reject);
        server.listen(port, '127.0.0.1', () => {
          server.off('error', reject);
          const address = server.address();
          if (address === null || typeof address === 'string')
            return reject(new Error('No port to listen on.'));
          port = address.port;
          resolve();
        });
      }),
    shut: () =>
      new Promise((resolve) => {
        if (!server.listening) return resolve();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
