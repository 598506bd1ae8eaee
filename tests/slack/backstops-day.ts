import { setImmediate as nextTurn } from 'node:timers/promises';
import { demoDay } from '../../adapters/cli/tour-script.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { type ConfirmedFlush, confirmedFlushes, wantedBackstops } from '../../src/chat/backstop.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { MINUTE } from '../../src/model/time.ts';
import { textsIn } from '../chat/site.ts';
import { MORNING } from '../chats/day.ts';
import { handTimers } from './by-hand.ts';
import { type Crew, type CrewOptions, crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, SHIFT, today } from './faults.ts';

export interface BackstopRow {
  readonly ref: string;
  readonly state: string;
  readonly postAt: number;
  readonly rigs: readonly { readonly rig: string; readonly since: number }[];
  readonly posted: readonly { readonly edited: boolean }[];
}

/** What outlives a process, and the hand on its timers. */
export function keptThings() {
  // The crew's own time: what is stamped long ago would be forgotten.
  let time = () => MORNING;
  const memory = memorySurfaceMemory({ now: () => time() });
  return {
    memory,
    timers: handTimers(),
    timeIs: (now: () => number): void => {
      time = now;
    },
  };
}
export type Kept = ReturnType<typeof keptThings>;

export async function crewWith(kept: Kept, options: CrewOptions = {}): Promise<Crew> {
  const crew = await crewOnSlack({ memory: kept.memory, again: kept.timers.again, ...options });
  kept.timeIs(() => crew.slack.clock.now());
  return crew;
}

export const rowsOf = async ({ memory }: Kept): Promise<readonly BackstopRow[]> =>
  (await memory.list('slack', 'backstop:')).map(({ value }) => JSON.parse(value) as BackstopRow);

/** Nearer than this a notice cannot be counted on to be taken back: adapters/slack/backstop-withdraw.ts has the source. */
const TOO_NEAR_MS = 5 * MINUTE + 30_000;

/** Lets the retries go off until Slack holds what the shift wants. How long that took, ms. */
export async function calm(crew: Crew, { timers }: Kept): Promise<number> {
  const began = crew.slack.clock.now();
  for (let tries = 0; tries < 20; tries += 1) {
    const shift = await today(crew);
    const holds = () => {
      const now = crew.slack.clock.now();
      const wanted = wantedBackstops(shift, now, textsIn('en')).map(({ ref }) => ref);
      const held = crew.slack.scheduled().map(({ text, postAt }) => ({ ref: refIn(text) ?? '', postAt }));
      const needless = held.filter(({ ref, postAt }) => !wanted.includes(ref) && postAt - now > TOO_NEAR_MS);
      return (
        needless.length === 0 && wanted.every((ref) => held.filter((one) => one.ref === ref).length === 1)
      );
    };
    await crew.slack.until(() => holds() || timers.waits().length > 0);
    if (holds()) return crew.slack.clock.now() - began;
    crew.pass(Math.max(1_000, ...timers.waits()));
    timers.goOff();
    await crew.deliver();
  }
  throw new Error(
    `Slack does not hold what is wanted after 20 tries: ${JSON.stringify(crew.slack.scheduled())}`,
  );
}

/** The demo day turn by turn from one on, until `stop` says so; the number of the turn after the last one done. */
export async function playCalmly(
  crew: Crew,
  kept: Kept,
  {
    from = 0,
    before,
    stop,
  }: { from?: number; before?: () => void; stop?: () => Promise<boolean> | boolean } = {},
): Promise<{ readonly next: number; readonly longestMs: number }> {
  let longestMs = 0;
  const turns = demoDay(dayOf(crew));
  for (const [index, { at, by, does }] of turns.entries()) {
    if (index < from) continue;
    before?.();
    await crew.passTo(at);
    const input = does(await crew.potbell.store.shift(SHIFT(crew)));
    if (input) await mustOnBoard(crew, by, input);
    if (await stop?.()) return { next: index + 1, longestMs };
    await crew.deliver();
    longestMs = Math.max(longestMs, await calm(crew, kept));
  }
  return { next: turns.length, longestMs };
}

/** Until nothing is being taken back any more; tries whose answer was lost have their turn. */
export async function takenBack(crew: Crew, kept: Kept): Promise<void> {
  for (let turns = 0; turns < 5_000; turns += 1) {
    if ((await rowsOf(kept)).every(({ state }) => state !== 'cancel_requested')) return;
    if (kept.timers.waits().length > 0) {
      crew.pass(Math.max(...kept.timers.waits()));
      kept.timers.goOff();
    }
    await nextTurn();
  }
}

/** What is wrong with the notices of the day at its end, in words. */
export async function noticesWrong(crew: Crew, kept: Kept): Promise<readonly string[]> {
  const wrong: string[] = [];
  const shift = await today(crew);
  const rows = await rowsOf(kept);
  const isOut = ({ rigs }: BackstopRow, flushes: readonly ConfirmedFlush[]) =>
    rigs.every(({ rig, since }) => flushes.some((one) => one.rig === rig && one.at >= since));
  for (const row of rows) {
    if (!isOut(row, confirmedFlushes(shift))) continue;
    const honest = row.state === 'cancelled' || row.state === 'cancel_uncertain' || row.state === 'fired';
    if (!honest) wrong.push(`${row.ref} is ${row.state}, and its paint is out`);
    if (row.posted.some(({ edited }) => !edited))
      wrong.push(`${row.ref} stands in the channel as if it counted`);
  }
  for (const { text } of crew.slack.scheduled()) wrong.push(`still to come: ${text.slice(0, 60)}`);
  const notices = crew.channel().filter(({ scheduledId }) => scheduledId !== null);
  for (const { text } of notices)
    if (!rows.some(({ ref }) => ref === refIn(text))) wrong.push(`nobody knows of: ${text.slice(0, 60)}`);
  // Each that the platform took, answered or not, by its words and time.
  const taken = crew.slack
    .callsOf('chat.scheduleMessage')
    .filter(({ response }) => typeof response !== 'string' && response.ok === true)
    .map(({ args }) => `${args.post_at} ${args.text}`);
  for (const one of new Set(taken))
    if (taken.filter((other) => other === one).length > 1) wrong.push(`set twice: ${one.slice(0, 70)}`);
  return wrong;
}
