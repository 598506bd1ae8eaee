import { Hono } from 'hono';
import { assetRoutes, build } from './assets.ts';
import { doRoutes } from './do-routes.ts';
import { fileRoutes } from './file-routes.ts';
import { formRoutes } from './form-routes.ts';
import { createHostNames } from './host-names.ts';
import { listen } from './listen.ts';
import { createLive } from './live.ts';
import { liveRoutes } from './live-routes.ts';
import { loginRoutes } from './login-routes.ts';
import { pageRoutes } from './page-routes.ts';
import type { BoardParts } from './parts.ts';
import { securityRoutes } from './security.ts';
import type { Board, BoardEnv, BoardServices } from './services.ts';
import { createVisits } from './session.ts';
import { createSurface } from './surface.ts';

export type { Board, BoardServices, RunningBoard } from './services.ts';

/** The web board: pages made from the shift, presses taken to the one door, bells rung on open pages. */
export function createBoard(services: BoardServices): Board {
  const live = createLive({ clock: services.clock, build });
  const parts: BoardParts = {
    services,
    live,
    hosts: createHostNames(services.hostNames),
    visits: createVisits({ clock: services.clock, minutes: services.sessionMinutes ?? 10 }),
  };
  const app = new Hono<BoardEnv>();
  securityRoutes(app, parts);
  assetRoutes(app);
  liveRoutes(app, parts);
  pageRoutes(app, parts);
  formRoutes(app, parts);
  doRoutes(app, parts);
  loginRoutes(app, parts);
  fileRoutes(app, parts);
  return {
    app,
    surface: createSurface(live, services.log),
    changed: live.changed,
    start: (where) => listen(app, parts, where),
  };
}
