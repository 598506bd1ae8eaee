import { type BackstopDay, dayPart } from '../../src/chat/backstop.ts';
import { HOUR, type Instant } from '../../src/model/time.ts';
import { caughtUp, edited } from './backstop-confirm.ts';
import { type BackstopServices, keep, look, type Round, tryAgainAt } from './backstop-round.ts';
import { type BackstopState, type Row, rowBook } from './backstop-rows.ts';
import { armAll, type Targets } from './backstop-targets.ts';
import { dropOrphans, dropStale, withdraw } from './backstop-withdraw.ts';

export type { BackstopServices } from './backstop-round.ts';
export type { BackstopSender, ListedNotice, Result } from './backstop-sender.ts';

/** A notice as the foreman sees it. `why` is empty unless something went wrong. */
export interface BackstopShown {
  readonly ref: string;
  readonly rig: string;
  readonly postAt: Instant;
  readonly state: BackstopState;
  readonly words: string;
  readonly why: string;
}

export interface Backstops {
  /**
   * Brings the platform to what one shift wants now, all of it. After each commit of a shift and once at the start for
   * each open one. Resolves when everything was tried; what the platform did not take is told to `onTrouble`.
   */
  sync(day: BackstopDay): Promise<void>;
  /** When `retry` has something to do; null when all went through. */
  retryAt(): Instant | null;
  retry(): Promise<void>;
  /** A message of our own with this ref was seen in the channel (`refIn` finds it). The same one twice does nothing. */
  fired(ref: string, ts: string): Promise<void>;
  /** Everything from an hour ago on, earliest first. */
  states(): Promise<readonly BackstopShown[]>;
}

const FORGET_MS = 72 * HOUR;

/** Notices that wait inside the platform. See docs/guides/backstop.md for the order of the steps and its reasons. */
export function createBackstops(services: BackstopServices): Backstops {
  const { clock, log } = services;
  const book = rowBook(services.memory, log);
  const last = new Map<string, BackstopDay>();
  const waiting = new Set<string>();
  const looked = new Set<string>();
  const again = new Map<string, Instant>();
  const broken = new Set<string>();
  let queue: Promise<void> = Promise.resolve();

  /** One thing after the other: two rounds at a time would set a notice twice. */
  function inTurn(job: () => Promise<void>): Promise<void> {
    const done = queue.then(job);
    queue = done.catch(() => {});
    return done;
  }

  function ask(part: string): Promise<void> {
    waiting.add(part);
    return inTurn(async () => {
      const day = last.get(part);
      // The shift's own first sync of this process sees to it.
      if (!day) again.delete(part);
      // A later one has done it already, with newer wishes.
      if (!waiting.delete(part) || !day) return;
      try {
        await round(part, day);
        broken.delete(part);
      } catch (error) {
        await sayBroken(part, day, error);
      }
    });
  }

  async function round(part: string, day: BackstopDay): Promise<void> {
    const { rows, damaged } = await book.of(part);
    if (damaged) looked.delete(part);
    const first = !looked.has(part);
    if (first) await book.forget(clock.now() - FORGET_MS);
    const now: Round = { services, book, day: part, rows, first, listed: null, blind: false, again: null };
    const open = [...rows.values()].some(({ unclear, postAt }) => unclear && postAt > clock.now());
    if (first || open) await look(now);
    await catchUp(now, day);
    const targets = await armAll(now, day);
    await takeBack(now, targets);
    const allSet = [...targets.values()].every(({ isArmed }) => isArmed);
    if (now.listed && allSet) await dropOrphans(now);
    if (!now.blind && allSet) looked.add(part);
    if (now.again === null) again.delete(part);
    else again.set(part, now.again);
  }

  async function catchUp(round: Round, { wanted, confirmed }: BackstopDay): Promise<void> {
    for (const row of [...round.rows.values()]) {
      const flushes = wanted.some(({ ref }) => ref === row.ref) ? [] : confirmed;
      const after = caughtUp(row, flushes, clock.now(), services.texts().say('backstop.too-late'));
      const shown = await edited(services, after);
      tryAgainAt(round, shown.again);
      if (shown.row !== row) await keep(round, shown.row);
    }
  }

  /** After the new ones are set. An old one stays while the new one of its rig is not set: better than none. */
  async function takeBack(round: Round, targets: Targets): Promise<void> {
    const unset = [...targets.values()].filter(({ isArmed }) => !isArmed);
    const needed = ({ rigs, confirmed }: Row) =>
      rigs.some(
        ({ rig }) =>
          !confirmed[rig] && unset.some(({ backstop }) => backstop.rigs.some((other) => other.rig === rig)),
      );
    for (const row of [...round.rows.values()]) {
      const target = targets.get(row.ref);
      if (target) {
        if (target.isArmed && row.stale.length > 0) await dropStale(round, row);
      } else if (row.postAt > clock.now() && mayStand(row) && !needed(row)) await withdraw(round, row);
    }
  }

  /** What people heard once is not said at every commit again. */
  async function sayBroken(part: string, day: BackstopDay, error: unknown): Promise<void> {
    const why = error instanceof Error ? error.message : String(error);
    log.error({ error: why }, 'backstops could not be brought up to date');
    again.set(part, clock.now() + 30_000);
    if (broken.has(part)) return;
    for (const { ref, rigs, postAt } of day.wanted) {
      const [first] = rigs;
      if (!first || postAt <= clock.now()) continue;
      const params = { ref, rig: first.name, by: first.by, why };
      await services.onTrouble(services.texts().say('backstop.trouble-waiting', params));
    }
    broken.add(part);
  }

  return {
    sync(day) {
      const part = dayPart(day.date);
      last.set(part, day);
      return ask(part);
    },
    retryAt: () => (again.size === 0 ? null : Math.min(...again.values())),
    async retry() {
      const due = [...again].filter(([, at]) => at <= clock.now());
      await Promise.all(due.map(([part]) => ask(part)));
    },
    fired: (ref, ts) =>
      inTurn(async () => {
        const row = await book.get(ref);
        if (!row) {
          log.warn({ ref }, 'a backstop was posted that is not remembered; its text says when it counts');
          return;
        }
        if (row.posted.some((one) => one.ts === ts)) return;
        const seen: Row = { ...row, state: 'fired', posted: [...row.posted, { ts, edited: false }] };
        // Before the edit: it is not lost when the edit does not go through.
        await book.put(seen);
        const shown = await edited(services, seen);
        if (shown.row !== seen) await book.put(shown.row);
        const part = ref.slice(0, 4);
        if (shown.again !== null) again.set(part, Math.min(again.get(part) ?? shown.again, shown.again));
      }),
    async states() {
      const { rows } = await book.of('');
      return [...rows.values()]
        .filter(({ postAt }) => postAt > clock.now() - HOUR)
        .sort((x, y) => x.postAt - y.postAt || (x.ref < y.ref ? -1 : 1))
        .map(({ ref, rig, postAt, state, why }) => {
          return { ref, rig, postAt, state, words: services.texts().say(`backstop.state.${state}`), why };
        });
    },
  };
}

/** Whether the platform may hold it, so that it has to be taken back. */
function mayStand({ state, stale }: Row): boolean {
  return state === 'armed' || state === 'wanted' || state === 'cancel_requested' || stale.length > 0;
}
