import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { mortal } from '../chats/day.ts';
import type { Fault } from '../peers/slack/types.ts';
import { handTimers } from './by-hand.ts';
import { CHANNEL, type Crew, type CrewOptions, crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, playOnBoard, turnedAway, wrongIn } from './faults.ts';

async function withCrew(test: (crew: Crew) => Promise<void>, options: CrewOptions = {}): Promise<void> {
  const crew = await crewOnSlack(options);
  try {
    await test(crew);
  } finally {
    await crew.close();
  }
}

const posted = (crew: Crew) => mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });

/** Faults as of docs.slack.dev/apis/web-api/rate-limits (429) and as networks have them. */
const kinds: readonly Fault[] = [
  { kind: '429', retryAfter: 7 },
  { kind: 'status', status: 503 },
  { kind: 'drop' },
  { kind: 'accept-then-drop' },
  { kind: 'error', error: 'fatal_error' },
  { kind: 'error', error: 'service_unavailable' },
];

describe('a whole day in Slack, with faults', () => {
  it('without any, all of it stands once: the measure for the others', () =>
    withCrew(async (crew) => {
      await playOnBoard(crew, () => undefined);
      expect(await wrongIn(crew)).toEqual([]);
      expect(crew.faults).toEqual([]);
      expect(turnedAway(crew)).toBe(0);
    }));

  it.each([0, 1, 2])(
    'in turn, at every step of the day (from the kind %i): nothing lost, nothing twice',
    (from) =>
      withCrew(async (crew) => {
        await playOnBoard(crew, (turn) => {
          const fault = kinds[(turn + from) % kinds.length];
          if (fault === undefined) throw new Error('no fault');
          crew.slack.fault(turn % 3 === 2 ? 'chat.update' : 'chat.postMessage', fault);
          if (turn === 0) crew.slack.fault('conversations.open', fault);
          if (turn % 5 === 4) crew.slack.fault('conversations.history', fault);
        });
        expect(await wrongIn(crew)).toEqual([]);
        expect(crew.faults).toEqual([]);
      }),
  );

  it.each(kinds.flatMap((fault) => [0, 1, 2].map((after) => ({ ...fault, fault, after }))))(
    'the briefing goes out in four parts, and $kind $status $error meets the one after $after of them',
    ({ fault, after }) =>
      withCrew(async (crew) => {
        await posted(crew);
        crew.pass(30 * 60_000);
        await crew.potbell.host.bells.runDue();
        for (let turns = 0; crew.channel().length < after; turns += 1) {
          if (turns > 20) throw new Error('the briefing does not go out');
          await crew.potbell.host.outbox.drain();
          crew.pass(1_000);
        }
        crew.slack.fault('chat.postMessage', fault, 3);
        await crew.deliver();
        expect(crew.slack.faultsLeft()).toBe(0);
        expect(crew.channel()).toHaveLength(4);
        expect(await wrongIn(crew)).toEqual([]);
        expect(crew.faults).toEqual([]);
      }),
  );

  it.each([false, true])('it hangs in the middle of the briefing; taken all the same: %s', (accepted) =>
    withCrew(
      async (crew) => {
        await posted(crew);
        crew.pass(30 * 60_000);
        await crew.potbell.host.bells.runDue();
        crew.slack.fault('chat.postMessage', { kind: 'hang', accepted }, 3);
        await crew.deliver();
        expect(crew.slack.faultsLeft()).toBe(0);
        expect(crew.channel()).toHaveLength(4);
        expect(await wrongIn(crew)).toEqual([]);
        expect(crew.faults).toEqual([]);
      },
      { again: handTimers().again, timeoutMs: 500 },
    ),
  );

  it('one channel that is asked to wait does not hold up the others', () =>
    withCrew(async (crew) => {
      await posted(crew);
      crew.pass(30 * 60_000);
      await crew.potbell.host.bells.runDue();
      crew.slack.fault('chat.postMessage', { kind: '429', retryAfter: 120 });
      for (let seconds = 0; seconds < 20; seconds += 1) {
        await crew.potbell.host.outbox.drain();
        crew.pass(1_000);
      }
      const posts = () => crew.slack.callsOf('chat.postMessage');
      const refused = posts().find(({ response }) => JSON.stringify(response).includes('ratelimited'));
      const held = String(refused?.args.channel);
      const places = [CHANNEL, ...crew.site.pack.people.map(({ id }) => crew.slack.dm(crew.member(id)))];
      expect(places).toContain(held);
      expect(places.filter((place) => crew.slack.messages(place).length === 0)).toEqual([held]);
      await crew.deliver();
      const times = posts().filter(({ args }) => args.channel === held);
      expect(times.map(({ at }) => at >= (refused?.at ?? 0) + 120_000)[0]).toBe(false);
      expect(times.slice(1).every(({ at }) => at >= (refused?.at ?? 0) + 120_000)).toBe(true);
      expect(await wrongIn(crew)).toEqual([]);
    }));
});

describe('the process dies in the middle of the briefing going out', () => {
  async function untilDeath(dieAt: number) {
    const clock = { now: () => 0 };
    const kept = { store: memoryStore(), memory: memorySurfaceMemory(clock) };
    const life = mortal(kept.store, kept.memory, dieAt);
    const first = await crewOnSlack(life);
    await posted(first);
    first.pass(30 * 60_000);
    await first.potbell.host.bells.runDue();
    for (let turns = 0; turns < 20 && !life.isDead(); turns += 1) {
      await first.potbell.host.outbox.drain().catch(() => undefined);
      first.pass(1_000);
    }
    await first.potbell.stop();
    return { first, life, kept };
  }

  it('at whichever write: what was half said is completed, nothing stands twice', async () => {
    const whole = await untilDeath(Number.POSITIVE_INFINITY);
    expect(await wrongIn(whole.first)).toEqual([]);
    const writes = whole.life.writes();
    await whole.first.slack.close();
    expect(writes).toBeGreaterThan(30);
    for (let dieAt = 0; dieAt < writes; dieAt += dieAt < 6 ? 1 : 13) {
      const { first, life, kept } = await untilDeath(dieAt);
      expect(life.isDead()).toBe(true);
      const second = await crewOnSlack({
        ...mortal(kept.store, kept.memory),
        slack: first.slack,
        at: '07:01',
      });
      await second.potbell.store.releaseClaims();
      await second.deliver();
      expect({ dieAt, wrong: await wrongIn(second) }).toEqual({ dieAt, wrong: [] });
      expect(second.channel()).toHaveLength(4);
      expect(second.faults).toEqual([]);
      await second.close();
    }
  });
});
