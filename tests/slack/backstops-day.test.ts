import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import type { SurfaceMemory } from '../../src/ports.ts';
import type { Fault } from '../peers/slack/types.ts';
import {
  calm,
  crewWith,
  type Kept,
  keptThings,
  noticesWrong,
  playCalmly,
  rowsOf,
  takenBack,
} from './backstops-day.ts';
import type { Crew } from './crew.ts';
import { wrongIn } from './faults.ts';

/** Faults as of docs.slack.dev/apis/web-api/rate-limits (429) and as networks have them. */
const kinds: readonly Fault[] = [
  { kind: '429', retryAfter: 7 },
  { kind: 'status', status: 503 },
  { kind: 'drop' },
  { kind: 'accept-then-drop' },
];
const SET = 'chat.scheduleMessage';
const TAKE_BACK = 'chat.deleteScheduledMessage';
const LIST = 'chat.scheduledMessages.list';

/** The Homes wait this long between two bursts; nothing else of a day without faults waits. */
const HOMES_MS = 3_000;

/** What the foremen hear in person of a notice that is not set yet is no message of the day. */
const ofTheDay = (wrong: readonly string[]) =>
  wrong.filter((text) => !/^ines: too much: The backstop notice for .* is not set in Slack yet/.test(text));
const notOfNotices = (faults: readonly string[]) =>
  faults.filter((text) => !text.startsWith('a backstop is not set'));

async function allIsWell(crew: Crew, kept: Kept): Promise<void> {
  await takenBack(crew, kept);
  expect(await noticesWrong(crew, kept)).toEqual([]);
  expect(ofTheDay(await wrongIn(crew))).toEqual([]);
  expect(notOfNotices(crew.faults)).toEqual([]);
}

/** A call meets one kind after the other until it goes through, and so does a later one, all day. */
function allKinds(crew: Crew, method: string) {
  let given = 0;
  return {
    met: () => given - crew.slack.faultsLeft(),
    before(): void {
      if (crew.slack.faultsLeft() > 0) return;
      for (const fault of kinds) crew.slack.fault(method, fault);
      given += kinds.length;
      if (method !== LIST) return;
      // The list is asked for at the first look and after no clear answer.
      crew.slack.fault(SET, { kind: 'accept-then-drop' });
      given += 1;
    },
  };
}

describe('the notices of a whole day', () => {
  it('without faults: the measure for the others', async () => {
    const kept = keptThings();
    const crew = await crewWith(kept);
    const { longestMs } = await playCalmly(crew, kept);
    expect(longestMs).toBeLessThanOrEqual(HOMES_MS);
    await allIsWell(crew, kept);
    const taken = crew.slack.callsOf(SET).map(({ args }) => refIn(String(args.text)));
    // Both rigs of the day had one.
    expect(taken.some((ref) => ref?.includes('rig-1'))).toBe(true);
    expect(taken.some((ref) => ref?.includes('rig-2'))).toBe(true);
    expect(crew.slack.callsOf(TAKE_BACK).length).toBeGreaterThan(1);
    expect(await wrongIn(crew)).toEqual([]);
    await crew.close();
  });

  it.each([SET, TAKE_BACK, LIST])(
    '%s meets 429, 503, drop and accept-then-drop: each line has its notice, once, soon, and nothing else is lost',
    async (method) => {
      const kept = keptThings();
      const crew = await crewWith(kept);
      const faults = allKinds(crew, method);
      const { longestMs } = await playCalmly(crew, kept, faults);
      expect(faults.met()).toBeGreaterThanOrEqual(kinds.length);
      // Each kind costs one wait: 7 s, or the 30 s of the next try; the rest is what deliveries took.
      expect(longestMs).toBeGreaterThan(30_000);
      expect(longestMs).toBeLessThanOrEqual(120_000);
      crew.slack.noFaults();
      await allIsWell(crew, kept);
      await crew.close();
    },
  );
});

/** A memory whose process dies at a write of a notice: right `after` it, or before it. */
function dies(
  memory: SurfaceMemory,
  at: 'after the intent' | 'before the id',
): { memory: SurfaceMemory; dead: () => boolean } {
  let dead = false;
  const alive = async <T>(work: () => Promise<T>): Promise<T> => {
    if (dead) throw new Error('this process is dead');
    return work();
  };
  return {
    dead: () => dead,
    memory: {
      get: (...args) => alive(() => memory.get(...args)),
      list: (...args) => alive(() => memory.list(...args)),
      remove: (...args) => alive(() => memory.remove(...args)),
      forget: (...args) => alive(() => memory.forget(...args)),
      async put(surface, key, value) {
        const isNotice = key.startsWith('backstop:');
        if (isNotice && at === 'before the id' && value.includes('"state":"armed"')) dead = true;
        await alive(() => memory.put(surface, key, value));
        if (isNotice && at === 'after the intent') dead = true;
      },
    },
  };
}

describe('the process dies while it sets the first notice of the day, and the next one goes on', () => {
  it.each([
    { at: 'after the intent' as const, held: 0 },
    { at: 'before the id' as const, held: 1 },
  ])('$at is written: the line has one notice, and the day ends in order', async ({ at, held }) => {
    const kept = keptThings();
    const store = memoryStore();
    const life = dies(kept.memory, at);
    const first = await crewWith(kept, {
      memory: life.memory,
      store: { ...store, close: async () => undefined },
    });
    // Dead before the call is as good as a call that never came out.
    if (at === 'after the intent') first.slack.fault(SET, { kind: 'drop' });
    const { next } = await playCalmly(first, kept, {
      stop: async () => {
        const mixing = (await first.potbell.store.journal(`${first.site.pack.site.id}:2026-06-08`)).some(
          ({ event }) => event.body.type === 'batch-mixed',
        );
        if (mixing) await first.slack.until(life.dead);
        return mixing;
      },
    });
    await first.potbell.stop();
    expect(first.slack.scheduled()).toHaveLength(held);
    expect((await rowsOf(kept)).map(({ state }) => state)).toEqual(['wanted']);
    first.slack.noFaults();
    kept.timers.goOff();

    const second = await crewWith(kept, { store, slack: first.slack, at: '08:16' });
    await second.potbell.store.releaseClaims();
    await second.deliver();
    await calm(second, kept);
    expect(second.slack.scheduled()).toHaveLength(1);
    expect((await rowsOf(kept)).map(({ state }) => state)).toEqual(['armed']);
    const { longestMs } = await playCalmly(second, kept, { from: next });
    expect(longestMs).toBeLessThanOrEqual(HOMES_MS);
    await allIsWell(second, kept);
    await second.close();
  });
});
