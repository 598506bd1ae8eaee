import type { Clock } from '../../src/ports.ts';
import { type Again, onTimer } from '../chat/again.ts';
import type { Log } from '../host/log.ts';
import type { BotIds, SlackApp } from './app.ts';
import { ask, SlackAway } from './ask.ts';
import type { SlackConfig } from './config.ts';
import { type Link, linkTo } from './link.ts';
import { refused } from './outcome.ts';

/** How long until the next try to join, ms: soon at first, then once a minute. */
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;
/** Slack closes every connection from time to time and means it to be opened anew: nobody should miss a press for long. */
const BACK_AT_ONCE_MS = 100;
/** One that went sooner than this was none: the next try waits longer. */
const STEADY_MS = 30_000;

export interface Joining {
  /** Null while it is joined and takes what is said; else why not, in words. */
  problem(): string | null;
  stop(): Promise<void>;
}

/**
 * Joins Slack when it can, and goes on trying: Potbell runs without it. `whoAmI` asks for the bot's ids and fails while
 * Slack is away or refuses the token. A connection that is lost is opened anew by the same rule.
 */
export function joinSlack(
  app: SlackApp,
  config: SlackConfig,
  whoAmI: () => Promise<BotIds>,
  log: Log,
  clock: Clock,
  again: Again = onTimer,
  pingMs?: number,
): Joining {
  let problem: string | null = 'Slack is being joined.';
  let stopped = false;
  let link: Link | null = null;
  let callOff: (() => void) | null = null;
  let joinedAt: number | null = null;
  let wait = FIRST_WAIT_MS;
  let underWay = attempt();

  async function attempt(): Promise<void> {
    try {
      link ??= linkTo(app, config, await known(whoAmI()), log, clock, lost, pingMs);
      await link.open();
      if (stopped) return;
      problem = null;
      joinedAt = clock.now();
      log.info({}, 'joined Slack');
    } catch (error) {
      problem = `Slack is not joined. ${inWords(error)}`;
      log.warn({ problem, again: wait }, 'Slack could not be joined; trying again');
      tryAgain(longer());
    }
  }

  /** The next wait, and the one after it is longer. */
  function longer(): number {
    const now = wait;
    wait = Math.min(wait * 2, LONGEST_WAIT_MS);
    return now;
  }

  /** The link says so once for each connection that was open. */
  function lost(): void {
    if (stopped || joinedAt === null) return;
    const steady = clock.now() - joinedAt >= STEADY_MS;
    joinedAt = null;
    problem = 'The connection to Slack is lost; presses there do not arrive until it is back.';
    log.warn({}, 'the connection to Slack is lost; opening it anew');
    if (steady) wait = FIRST_WAIT_MS;
    tryAgain(steady ? BACK_AT_ONCE_MS : longer());
  }

  function tryAgain(ms: number): void {
    if (stopped) return;
    callOff = again(ms, () => {
      callOff = null;
      underWay = attempt();
    });
  }

  return {
    problem: () => problem ?? app.surface.away(),
    async stop() {
      stopped = true;
      callOff?.();
      await underWay;
      await link?.close();
    },
  };
}

/** Slack's own refusal becomes an error with words. */
async function known<T>(asked: Promise<T>): Promise<T> {
  const answer = await ask(asked);
  if (answer.ok) return answer.value;
  const { why } = refused(answer.code);
  throw new SlackAway(why);
}

function inWords(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
