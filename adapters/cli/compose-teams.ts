import { HOUR } from '../../src/model/time.ts';
import { onTimer } from '../chat/again.ts';
import { createForgetting, forgetOld } from '../chat/forget.ts';
import type { ChatServices } from '../chat/services.ts';
import type { Log } from '../host/log.ts';
import { createTeamsApp } from '../teams/app.ts';
import { createTeamsAuth } from '../teams/auth.ts';
import type { TeamsConfig } from '../teams/config.ts';
import { createConversations } from '../teams/conversations.ts';
import { createFileStore } from '../teams/file-store.ts';
import { onceOnlyHttp } from '../teams/http.ts';
import { joinTeams } from '../teams/join.ts';
import { linkTo } from '../teams/link.ts';
import { createTeamsPace } from '../teams/pace.ts';
import { memberOf, personOf } from '../teams/people.ts';
import { createSender } from '../teams/sender.ts';
import { TEAMS } from '../teams/services.ts';
import { type ChatWaits, onClock, type SiteParts, talking } from './chat-parts.ts';

/** Nothing that is said is tried again for longer than half a day. */
const SENT_KEPT_MS = 48 * HOUR;

/** Loaded only when Teams is configured: its packages take a while to load, and most of a site's commands need none. */
export function composeTeams(
  config: TeamsConfig,
  services: SiteParts,
  log: Log,
  { wait = onClock, again = onTimer, timeoutMs }: ChatWaits = {},
) {
  const { memory, clock, pack } = services;
  const auth = createTeamsAuth({
    config,
    log,
    ...(timeoutMs !== undefined && { http: onceOnlyHttp(timeoutMs) }),
  });
  const conversations = createConversations(memory);
  const out = createSender({
    auth,
    conversations,
    memory,
    clock,
    pace: createTeamsPace(),
    log,
    appId: config.appId,
    tenantId: config.tenantId,
    roster: () => pack().site.teams?.channel ?? null,
  });
  const files = createFileStore(config.apiUrl, timeoutMs);
  const whole: ChatServices = {
    ...services,
    surface: TEAMS,
    personOf,
    memberOf,
    ...talking,
    wait,
    again,
    // Teams keeps no message for later.
    notices: async () => [],
  };
  const app = createTeamsApp(whole, out, conversations, files, again);
  const link = linkTo(auth, config.port, log, app.take);

  const forgetDaily = createForgetting({ clock, log, surface: TEAMS }, async (now) => {
    await out.forgetSent(now - SENT_KEPT_MS);
    await forgetOld(memory, TEAMS, now);
  });

  return {
    surface: app.surface,
    /** Cards ask anew by themselves: nothing is pushed. */
    changed: () => forgetDaily(),
    /** What people have to hear by another way, in words. */
    problems: () => app.problems(),
    async settled() {
      await app.settled();
      await app.surface.settled();
    },
    stop: async () => undefined,
    join() {
      forgetDaily();
      return joinTeams(app, link, config, log, again);
    },
  };
}
