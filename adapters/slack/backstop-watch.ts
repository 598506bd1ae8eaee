import { backstopDay } from '../../src/chat/backstop.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { type Again, onTimer } from '../chat/again.ts';
import { words } from '../chat/messages.ts';
import { visitOf } from '../chat/visit.ts';
import { tellDirectly } from './answer.ts';
import { backstopSender } from './backstop-wire.ts';
import { createBackstops } from './backstops.ts';
import { unescaped } from './inbound.ts';
import { memberOf } from './people.ts';
import type { Sender } from './sender.ts';
import type { SlackServices } from './services.ts';

/** Longest a timer sleeps: a clock that was set is noticed within this. */
const LONGEST_SLEEP_MS = 30_000;

export type BackstopWatch = ReturnType<typeof createBackstopWatch>;

/**
 * Keeps the notices inside Slack in step with every open shift: after each commit, when a try that failed is due again, and
 * once when Slack is joined. What cannot be set is told to the foremen and stands in `troubles` for the board.
 */
export function createBackstopWatch(services: SlackServices, out: Sender, again: Again = onTimer) {
  const { clock, log, memory } = services;
  const channel = services.pack().site.slack?.channel;
  const texts = () => services.texts(services.pack().site.language);
  const troubles: string[] = [];
  let callOff: (() => void) | null = null;
  let working: Promise<void> = Promise.resolve();
  let stopped = false;

  const backstops =
    channel === undefined
      ? null
      : createBackstops({ sender: backstopSender(out), memory, clock, log, channel, texts, onTrouble });

  async function onTrouble(text: string): Promise<void> {
    troubles.push(text);
    const pack = services.pack();
    for (const { id, roles } of pack.people) {
      const member = roles.includes('foreman') ? memberOf(pack, id) : null;
      if (member === null) continue;
      const visit = await visitOf(services, member);
      await tellDirectly(services, out, visit, `${text}:${clock.now()}`, words('danger', text));
    }
  }

  async function syncAll(): Promise<void> {
    if (!backstops) return;
    // What was in trouble is told anew by the round if it still is.
    troubles.length = 0;
    for (const shift of await services.openShifts())
      await backstops.sync(backstopDay(shift, clock.now(), texts()));
    arm();
  }

  /** One timer until a failed try is due; a commit meanwhile does it sooner. */
  function arm(): void {
    callOff?.();
    callOff = null;
    const at = backstops?.retryAt() ?? null;
    if (stopped || at === null) return;
    const sleep = Math.min(LONGEST_SLEEP_MS, Math.max(0, at - clock.now()));
    callOff = again(sleep, () => {
      callOff = null;
      work(async () => backstops?.retry());
    });
  }

  function work(job: () => Promise<void> | undefined): void {
    working = working
      .then(job)
      .then(arm)
      .catch((error: unknown) => log.error({ err: error }, 'the backstops could not be brought up to date'));
  }

  return {
    /** Call after every commit and when Slack is joined. */
    changed: () => work(syncAll),
    /** A message of our own came up in the channel: a notice whose time has come, perhaps. */
    seen(message: { readonly channel: string; readonly ts: string; readonly text: string }): void {
      const ref = message.channel === channel ? refIn(unescaped(message.text)) : null;
      if (ref !== null) work(async () => backstops?.fired(ref, message.ts));
    },
    /** Why a notice is not set, in words for the board. */
    troubles: (): readonly string[] => troubles,
    states: async () => (await backstops?.states()) ?? [],
    settled: () => working,
    async stop(): Promise<void> {
      stopped = true;
      callOff?.();
      await working;
    },
  };
}
