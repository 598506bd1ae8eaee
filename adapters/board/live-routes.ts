import type { Hono } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { BoardParts } from './parts.ts';
import type { BoardEnv } from './services.ts';

/** Pages reconnect after this long; the page's own script backs off further when the board stays away. */
const RETRY_MS = 3000;

export function liveRoutes(app: Hono<BoardEnv>, { live, services }: BoardParts): void {
  app.get('/live', (c) => {
    if (live.full()) return c.text('too many pages are open on this board; close some', 503);
    return streamSSE(
      c,
      (stream) =>
        live.serve(
          async ({ kind, ...data }) => {
            await stream.writeSSE({ event: kind, data: JSON.stringify(data), retry: RETRY_MS });
          },
          () => stream.aborted,
          (wake) => stream.onAbort(wake),
        ),
      async (error) => services.log.error({ err: error }, 'a live page was dropped'),
    );
  });

  app.get('/healthz', async (c) => {
    c.header('Cache-Control', 'no-store');
    try {
      const { ok, problems } = await services.health();
      return c.json({ ok, problems }, ok ? 200 : 503);
    } catch (error) {
      services.log.error({ err: error }, 'health could not be asked');
      return c.json({ ok: false, problems: ['health could not be asked; see the log'] }, 503);
    }
  });
}
