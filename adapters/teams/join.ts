import { type Again, onTimer } from '../chat/again.ts';
import type { Log } from '../host/log.ts';
import type { TeamsApp } from './app.ts';
import type { TeamsConfig } from './config.ts';
import type { Link } from './link.ts';

/** How long until the next try to open the door, ms: soon at first, then once a minute. */
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;

export interface Joining {
  /** Null while what is done in Teams can come in and what is said goes out; else why not, in words. */
  problem(): string | null;
  stop(): Promise<void>;
}

/** Opens the door for Teams when it can, and goes on trying: Potbell runs without it. */
export function joinTeams(
  app: Pick<TeamsApp, 'load' | 'heard' | 'surface'>,
  link: Link,
  { port }: Pick<TeamsConfig, 'port'>,
  log: Log,
  again: Again = onTimer,
): Joining {
  let problem: string | null = 'Teams is being joined.';
  let stopped = false;
  let callOff: (() => void) | null = null;
  let wait = FIRST_WAIT_MS;
  let underWay = attempt();

  async function attempt(): Promise<void> {
    try {
      await app.load();
      await link.open();
      problem = null;
    } catch (error) {
      problem = `Teams is not joined. ${inWords(error, port)}`;
      if (stopped) return;
      log.warn(
        { part: 'teams', problem, again: wait, err: error },
        'the door for Teams could not be opened; trying again',
      );
      callOff = again(wait, () => {
        callOff = null;
        underWay = attempt();
      });
      wait = Math.min(wait * 2, LONGEST_WAIT_MS);
    }
  }

  return {
    problem() {
      if (problem !== null) return problem;
      if (!app.heard())
        return 'Nothing has come from Teams yet, so Potbell does not know where to write: write to it there once.';
      return app.surface.away();
    },
    async stop() {
      stopped = true;
      callOff?.();
      await underWay;
      await link.close();
    },
  };
}

/** nodejs.org/api/errors.html, "Common system errors". */
function inWords(error: unknown, port: number): string {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (code === 'EADDRINUSE')
    return `Something else uses port ${port}: stop it, or set another in POTBELL_TEAMS_PORT and in the proxy.`;
  if (code === 'EACCES')
    return `Potbell may not use port ${port}: set one above 1023 in POTBELL_TEAMS_PORT and in the proxy.`;
  return error instanceof Error ? error.message : String(error);
}
