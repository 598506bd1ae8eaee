import { expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { createOutboxLoop } from '../../adapters/host/outbox-loop.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import type { Sender } from '../../adapters/slack/sender.ts';
import type { Delivery, DeliveryResult, Surface } from '../../src/ports.ts';
import { aDelivery, start } from '../contracts/fixtures.ts';
import { a, withSender, type Yard } from './sender-helpers.ts';

const { textsFor } = loadTexts();

/** The outbox in front of the sender, on the peer's clock. The surface is as thin as can be. */
async function behindOutbox({ slack, logged }: Yard, sender: Sender, deliveries: readonly Delivery[]) {
  const store = memoryStore();
  await start(store, 's', { deliveries });
  const keep = (facts: object, words: string): void => {
    logged.push(`${JSON.stringify(facts)} ${words}`);
  };
  const surface: Surface = {
    name: 'slack',
    reaches: () => true,
    async deliver({ id, key, possibleRepeat }): Promise<DeliveryResult> {
      const sent = await sender.post({ ...a(id, key), lookFirst: possibleRepeat });
      switch (sent.kind) {
        case 'ok':
          return { kind: 'sent' };
        case 'gone':
          return { kind: 'failed', why: sent.why };
        case 'unclear':
          throw new Error(sent.why);
        case 'retry':
        case 'later':
          return sent;
      }
    },
  };
  const loop = createOutboxLoop({
    store,
    handle: async () => {
      throw new Error('nothing is to be noted in this test');
    },
    clock: { now: () => slack.clock.now() },
    log: { info: keep, warn: keep, error: keep },
    surfaces: [surface],
    textsFor,
    language: () => 'en',
  });
  return {
    store,
    async pass(ms: number) {
      slack.clock.advance(ms);
      await loop.drain();
    },
  };
}

const named = (name: string, key = 'C01') => aDelivery('s', name, { key, surface: 'slack' });
const ids = (count: number, key?: string) =>
  Array.from({ length: count }, (_, index) => named(`${key ?? ''}${index}.`, key));
const inOrder = (deliveries: readonly Delivery[]) => deliveries.map(({ id }) => expect.stringContaining(id));

test('thirty messages at once reach a channel that takes one a second, in order, none tried twice', () =>
  withSender(async (yard) => {
    const queued = ids(30);
    const { store, pass } = await behindOutbox(yard, yard.sender, queued);
    for (let second = 0; second < 30; second += 1) await pass(second === 0 ? 0 : 1000);
    expect(yard.standing()).toEqual(inOrder(queued));
    expect(yard.slack.callsOf('chat.postMessage')).toHaveLength(30);
    expect(
      (await store.deliveries({ limit: 99 })).map(({ state, attempts }) => `${state} ${attempts}`),
    ).toEqual(queued.map(() => 'sent 1'));
  }));

test('a bad day on the line: each message stands once', () =>
  withSender(async (yard) => {
    const { slack } = yard;
    const queued = ids(8);
    const { store, pass } = await behindOutbox(yard, yard.sender, queued);
    const faults = ['accept-then-drop', 'drop', 'accept-then-drop', 'drop', 'drop'] as const;
    for (const kind of faults) slack.fault('chat.postMessage', { kind });
    slack.fault('conversations.history', { kind: 'drop' });
    slack.fault('chat.postMessage', { kind: 'status', status: 503 });
    slack.fault('chat.postMessage', { kind: '429', retryAfter: 3 });
    for (let second = 0; second < 90; second += 1) await pass(1000);
    expect(await store.oldestUnsettled()).toBeNull();
    expect(slack.faultsLeft()).toBe(0);
    expect([...yard.standing()].sort()).toEqual(inOrder(queued));
  }));

test('the process dies after the post: the next one finds it and says nothing', () =>
  withSender(async (yard) => {
    const { slack, sender, restarted, standing } = yard;
    const { store, pass } = await behindOutbox(yard, restarted(), [named('1')]);
    const [claimed] = await store.claim(slack.clock.now(), 1, 20_000);
    await sender.post(a(claimed?.id ?? ''));
    expect(await store.releaseClaims()).toBe(1);
    await pass(1000);
    expect(standing()).toHaveLength(1);
    expect(await store.deliveries({ limit: 1 })).toMatchObject([{ state: 'sent' }]);
  }));

test('a channel that is asked to wait does not hold up the other', () =>
  withSender(async (yard) => {
    const { slack, standing } = yard;
    const [one, other] = [ids(5), ids(5, 'C03')];
    const { pass } = await behindOutbox(yard, yard.sender, [...one, ...other]);
    slack.fault('chat.postMessage', { kind: '429', retryAfter: 60 });
    for (let second = 0; second < 6; second += 1) await pass(1000);
    expect([standing(), standing('C03')]).toEqual([[], inOrder(other)]);
    for (let second = 0; second < 60; second += 1) await pass(1000);
    expect(standing()).toEqual(inOrder(one));
  }));
