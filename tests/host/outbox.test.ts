import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { createOutboxLoop } from '../../adapters/host/outbox-loop.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { createPace } from '../../src/chat/pace.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { ClaimedDelivery, Delivery, DeliveryResult, Surface } from '../../src/ports.ts';
import { aCommit, aDelivery, put, start, T0 } from '../contracts/fixtures.ts';
import { person } from '../flow/harness.ts';
import { aDay, t } from '../flow/pack.ts';
import { recordingSurface, World } from '../scenarios/world.ts';

const id = 'weir:2026-05-12';

/** A posted and briefed day whose messages go to a surface that answers as told, one answer a try. */
async function sending(answer: (delivery: ClaimedDelivery, tries: number) => Promise<DeliveryResult>) {
  let tries = 0;
  const { surface, shown } = recordingSurface('chat', (delivery) => answer(delivery, ++tries));
  // Not the foreman's own message about the stop, only the one about what got lost.
  const crewOnly: Surface = {
    ...surface,
    reaches: ({ kind }, { undelivered }) => kind === 'crew' || undelivered.length > 0,
  };
  const world = new World(memoryStore(), [crewOnly], t('06:00'));
  await world.take({ at: world.now, by: person('finn'), command: aDay() }, 'day');
  await world.take(
    { at: world.now, by: person('hal'), command: { type: 'stop-work', text: 'Crane' } },
    'stop',
  );
  return { world, shown };
}

describe('outbox', () => {
  test('a message goes out once', async () => {
    const { world, shown } = await sending(async () => ({ kind: 'sent' }));
    expect(await world.host.outbox.drain()).toBe(1);
    expect(await world.host.outbox.drain()).toBe(0);
    expect(shown.map(({ message }) => message.summary)).toEqual([expect.stringContaining('STOP WORK')]);
    expect(await world.store.oldestUnsettled()).toBeNull();
  });

  test('a retry waits longer each time, at most half a minute', async () => {
    const { world, shown } = await sending(async (_delivery, tries) =>
      tries < 8 ? { kind: 'retry', why: 'busy' } : { kind: 'sent' },
    );
    const waits: number[] = [];
    await world.host.outbox.drain();
    for (let tried = 1; tried < 8; tried += 1) {
      const from = world.now;
      while (shown.length === tried) {
        world.now += 1000;
        await world.host.outbox.drain();
      }
      waits.push((world.now - from) / 1000);
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 30, 30]);
    expect(shown.every(({ possibleRepeat }) => !possibleRepeat)).toBe(true);
  });

  test('a wait that the platform names is kept', async () => {
    const { world, shown } = await sending(async (_delivery, tries) =>
      tries === 1 ? { kind: 'retry', why: 'limit', afterMs: 45_000 } : { kind: 'sent' },
    );
    await world.host.outbox.drain();
    world.now += 44_999;
    await world.host.outbox.drain();
    expect(shown).toHaveLength(1);
    world.now += 1;
    await world.host.outbox.drain();
    expect(shown).toHaveLength(2);
  });

  test('a throw is tried again, marked as a possible repeat in words', async () => {
    const { world, shown } = await sending(async (_delivery, tries) => {
      if (tries === 1) throw new Error('socket closed');
      return { kind: 'sent' };
    });
    await world.host.outbox.drain();
    world.now += 1000;
    await world.host.outbox.drain();
    expect(shown.map(({ attempt, possibleRepeat }) => [attempt, possibleRepeat])).toEqual([
      [1, false],
      [2, true],
    ]);
    const [first, second] = shown.map(({ message }) => plainText(message));
    expect(first).not.toContain('You may have seen it already');
    expect(second).toContain('You may have seen it already');
  });

  test('a message that can never arrive becomes a fact of the shift and is told to the foreman', async () => {
    const { world, shown } = await sending(async ({ key }) =>
      key.startsWith('stop-work') ? { kind: 'failed', why: 'channel is gone' } : { kind: 'sent' },
    );
    await world.host.outbox.drain();
    const shift = await world.store.shift(id);
    expect(shift?.undelivered).toEqual([
      { at: world.now, to: 'crew', surface: 'chat', why: 'channel is gone' },
    ]);
    const notice = shown.find(({ key }) => key.startsWith('undelivered'));
    expect(notice).toMatchObject({ audience: { kind: 'person', person: 'finn' }, urgency: 'bell' });
    expect(notice?.message.summary).toContain('channel is gone');
    expect(await world.store.deliveries({ state: 'failed', limit: 9 })).toHaveLength(1);
  });

  test('a lost message about a lost message does not breed', async () => {
    const { world } = await sending(async () => ({ kind: 'failed', why: 'down' }));
    await world.host.outbox.drain();
    expect((await world.store.shift(id))?.undelivered).toHaveLength(1);
    expect(await world.store.deliveries({ state: 'failed', limit: 9 })).toHaveLength(2);
  });

  test('after twenty tries a message is given up, not before', async () => {
    const { world, shown } = await sending(async ({ key }) =>
      key.startsWith('stop-work') ? { kind: 'retry', why: 'busy' } : { kind: 'sent' },
    );
    for (let i = 0; i < 40; i += 1) {
      await world.host.outbox.drain();
      world.now += 30_000;
    }
    expect(shown.filter(({ key }) => key.startsWith('stop-work'))).toHaveLength(20);
    expect((await world.store.shift(id))?.undelivered).toMatchObject([{ why: 'busy' }]);
  });

  test('a surface that is no longer there is a lost message, not a silence', async () => {
    const { world } = await sending(async () => ({ kind: 'sent' }));
    const gone = new World(world.store, [], world.now);
    await gone.host.outbox.drain();
    expect((await world.store.shift(id))?.undelivered[0]?.why).toContain('has no surface "chat" now');
  });

  test('what was being sent when the process died goes out again, marked', async () => {
    const { world, shown } = await sending(async () => ({ kind: 'sent' }));
    await world.store.claim(world.now, 8, 20_000);
    expect(await world.host.outbox.drain()).toBe(0);
    expect(await world.store.releaseClaims()).toBe(1);
    await world.host.outbox.drain();
    expect(shown).toMatchObject([{ attempt: 2, possibleRepeat: true }]);
  });
});

describe('outbox on its own', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  const { textsFor } = loadTexts();
  const quiet = { info() {}, warn() {}, error() {} };
  const handle = async () => {
    throw new Error('nothing is to be noted in this test');
  };

  test('no answer in ten seconds is unclear and tried again', async () => {
    const store = memoryStore();
    await start(store, 's', { deliveries: [aDelivery('s', 'a')] });
    const { surface, shown } = recordingSurface('board', () => new Promise(() => {}));
    const loop = createOutboxLoop({
      store,
      handle,
      clock: { now: () => T0 + Date.now() },
      log: quiet,
      surfaces: [surface],
      textsFor,
      language: () => 'en',
    });
    vi.setSystemTime(0);
    const drained = loop.drain();
    await vi.advanceTimersByTimeAsync(9_999);
    expect((await store.deliveries({ limit: 1 }))[0]?.state).toBe('sending');
    await vi.advanceTimersByTimeAsync(1);
    await drained;
    expect((await store.deliveries({ limit: 1 }))[0]).toMatchObject({
      state: 'queued',
      lastError: 'the surface did not answer in 10 s',
    });
    vi.setSystemTime(12_000);
    void loop.drain();
    await vi.advanceTimersByTimeAsync(0);
    expect(shown.map(({ possibleRepeat }) => possibleRepeat)).toEqual([false, true]);
    await vi.advanceTimersByTimeAsync(10_000);
  });

  test('one that hangs does not hold up the others, and no more than eight are under way', async () => {
    const store = memoryStore();
    await start(store, 's', {
      deliveries: Array.from({ length: 12 }, (_, index) => aDelivery('s', `d${index}`)),
    });
    let under = 0;
    let most = 0;
    const { surface } = recordingSurface('board', async ({ id: one }) => {
      under += 1;
      most = Math.max(most, under);
      if (one === 's:d0') await new Promise(() => {});
      await Promise.resolve();
      under -= 1;
      return { kind: 'sent' };
    });
    const loop = createOutboxLoop({
      store,
      handle,
      clock: { now: () => T0 },
      log: quiet,
      surfaces: [surface],
      textsFor,
      language: () => 'en',
    });
    loop.start();
    await vi.advanceTimersByTimeAsync(1_000);
    expect(most).toBeLessThanOrEqual(8);
    expect(await store.deliveries({ state: 'sent', limit: 99 })).toHaveLength(11);
    const stopping = loop.stop();
    await vi.advanceTimersByTimeAsync(10_000);
    await stopping;
  });

  test('bells go before quiet messages', async () => {
    const store = memoryStore();
    await start(store, 's', {
      deliveries: [aDelivery('s', 'quiet'), aDelivery('s', 'loud', { urgency: 'bell' })],
    });
    const { surface, shown } = recordingSurface('board');
    await createOutboxLoop({
      store,
      handle,
      clock: { now: () => T0 },
      log: quiet,
      surfaces: [surface],
      textsFor,
      language: () => 'en',
    }).drain();
    expect(shown.map(({ id: one }) => one)).toEqual(['s:loud', 's:quiet']);
  });

  describe('a surface that takes one message a second in a channel', () => {
    /** One a second, as `src/chat/pace.ts` has it: docs.slack.dev/apis/web-api/rate-limits. */
    async function paced(deliveries: readonly Delivery[], fails: (delivery: ClaimedDelivery) => boolean) {
      const store = memoryStore();
      await start(store, 's', { deliveries });
      const pace = createPace();
      let now = T0;
      const sent: { readonly id: string; readonly at: number; readonly attempt: number }[] = [];
      const { surface } = recordingSurface('board', async (delivery) => {
        const afterMs = pace.takePost('C1', now);
        if (afterMs > 0) return { kind: 'later', afterMs };
        if (fails(delivery)) return { kind: 'retry', why: 'busy' };
        sent.push({ id: delivery.id, at: now - T0, attempt: delivery.attempt });
        return { kind: 'sent' };
      });
      const loop = createOutboxLoop({
        store,
        handle,
        clock: { now: () => now },
        log: quiet,
        surfaces: [surface],
        textsFor,
        language: () => 'en',
      });
      const pass = async (ms: number) => {
        now += ms;
        await loop.drain();
      };
      await loop.drain();
      return { store, sent, pass };
    }

    const thirty = Array.from({ length: 30 }, (_, index) => aDelivery('s', `d${index}`));

    test('gets thirty in their order, one a second, each with its first try', async () => {
      const { store, sent, pass } = await paced(thirty, () => false);
      for (let quarter = 1; quarter <= 29 * 4; quarter += 1) await pass(250);
      expect(sent).toEqual(thirty.map(({ id: one }, index) => ({ id: one, at: index * 1000, attempt: 1 })));
      expect(await store.oldestUnsettled()).toBeNull();
      expect(await store.deliveries({ state: 'failed', limit: 99 })).toEqual([]);
    });

    test('gets a bell before the quiet ones that wait', async () => {
      const { store, sent, pass } = await paced(thirty, () => false);
      const bell = aDelivery('s', 'bell', { urgency: 'bell' });
      await put(store, aCommit('s', 2, 2, { deliveries: [bell] }));
      await pass(250);
      await pass(750);
      expect(sent.map(({ id: one }) => one)).toEqual(['s:d0', 's:bell']);
    });

    test('a message’s own failed tries still count while others wait for their turn', async () => {
      const { store, sent, pass } = await paced(thirty.slice(0, 3), ({ id: one }) => one === 's:d0');
      // Its notice is a command that this test does not take, so it is looked at before the last try.
      for (let second = 0; second < 600; second += 1) {
        await pass(1000);
        const [first] = (await store.deliveries({ limit: 9 })).filter(({ id: one }) => one === 's:d0');
        if (first?.attempts === 19) break;
      }
      expect(await store.deliveries({ state: 'queued', limit: 9 })).toMatchObject([
        { id: 's:d0', attempts: 19, lastError: 'busy' },
      ]);
      expect(sent.map(({ id: one, attempt }) => [one, attempt])).toEqual([
        ['s:d1', 1],
        ['s:d2', 1],
      ]);
    });

    test('that names a wait of nothing is asked again, and a drain comes to its end', async () => {
      const store = memoryStore();
      await start(store, 's', { deliveries: [aDelivery('s', 'a')] });
      const { surface, shown } = recordingSurface('board', async () => ({ kind: 'later', afterMs: 0 }));
      const clock = { now: () => T0 };
      const loop = createOutboxLoop({
        store,
        handle,
        clock,
        log: quiet,
        surfaces: [surface],
        textsFor,
        language: () => 'en',
      });
      expect(await loop.drain()).toBe(1);
      expect(shown).toHaveLength(1);
      expect(await store.claim(T0 + 1, 1, 1000)).toMatchObject([{ id: 's:a', attempt: 1 }]);
    });
  });

  test('poking in the middle of a turn leaves one chain of turns, and none goes on after stop', async () => {
    let claims = 0;
    const store = {
      ...memoryStore(),
      async claim() {
        claims += 1;
        await new Promise((done) => setTimeout(done, 5));
        return [];
      },
    };
    const loop = createOutboxLoop({
      store,
      handle,
      clock: { now: () => T0 },
      log: quiet,
      surfaces: [],
      textsFor,
      language: () => 'en',
    });
    loop.start();
    for (let i = 0; i < 10; i += 1) {
      await vi.advanceTimersByTimeAsync(500);
      loop.poke();
      await vi.advanceTimersByTimeAsync(1);
      loop.poke();
    }
    claims = 0;
    await vi.advanceTimersByTimeAsync(5_000);
    expect(claims).toBeLessThanOrEqual(11);
    await loop.stop();
    claims = 0;
    await vi.advanceTimersByTimeAsync(2_000);
    expect(claims).toBe(0);
  });
});
