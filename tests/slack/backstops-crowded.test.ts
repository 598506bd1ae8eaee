import { describe, expect, it } from 'vitest';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { t } from '../flow/pack.ts';
import { call } from '../peers/slack/world.ts';
import { CHANNEL, withWorld as inWorld, twoRigs, type World } from './backstops-world.ts';

const START = t('08:00');
const times = (world: World, method: string) => world.slack.callsOf(method).length;
/** Filling the channel takes more calls in a minute than the platform lets an app make. */
const withWorld = (startAt: number, test: (world: World) => Promise<void>) =>
  inWorld(startAt, test, { tiers: false });

/** Fills the five minutes around a time with messages of somebody else's making. */
async function crowd(world: World, at: number, count = 30): Promise<void> {
  for (let index = 0; index < count; index += 1) {
    const args = { channel: CHANNEL, text: 'unrelated', post_at: Math.floor(at / 1000) + index };
    expect((await call(world.slack, 'chat.scheduleMessage', args)).body.ok).toBe(true);
  }
}
const ours = (world: World) => world.slack.scheduled().filter(({ text }) => text !== 'unrelated');

// Thirty in five minutes of one channel: docs.slack.dev/reference/methods/chat.scheduleMessage.
describe('more than the platform takes around one time', () => {
  it('two rigs share one notice at the earlier time, with the time of each', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      const [first, second] = world.day(play.state).wanted;
      // There is room for rig 1 at 09:46, none for rig 2 an hour later.
      await crowd(world, (second?.postAt ?? 0) - 60_000);
      await world.sync(play);
      const [shared] = ours(world);
      expect(ours(world)).toHaveLength(1);
      expect(shared?.postAt).toBe(first?.postAt);
      expect(shared?.text).toContain('Rig One by 09:46 (paint dead at 10:00); Rig Two by 10:4');
      expect(world.troubles).toEqual([]);
      // The next commit leaves it.
      const before = times(world, 'chat.scheduleMessage');
      await world.sync(play.at('08:02'));
      expect(times(world, 'chat.scheduleMessage')).toBe(before);
      world.start();
      await world.sync(play.at('08:03'));
      expect(ours(world).map(({ id }) => id)).toEqual([shared?.id]);
    }));

  it('room is made by taking back one of our own', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      const [first, second] = world.day(play.state).wanted;
      await crowd(world, (first?.postAt ?? 0) - 60_000, 29);
      await crowd(world, (second?.postAt ?? 0) - 60_000);
      await world.sync(play);
      expect(ours(world)).toHaveLength(1);
      expect(refIn(ours(world)[0]?.text ?? '')).toMatch(/^0512-all-2[a-z]{4}$/);
      expect(world.troubles).toEqual([]);
    }));

  it('without any room people hear it, with the names of the rigs', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      for (const { postAt } of world.day(play.state).wanted) await crowd(world, postAt - 60_000);
      await world.sync(play);
      expect(ours(world)).toEqual([]);
      expect(world.troubles).toEqual([expect.stringContaining('restricted_too_many')]);
      expect(world.troubles[0]).toContain('Rig One, Rig Two');
    }));

  it('the shared notice that posts is changed only when every flush is confirmed', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      await crowd(world, (world.day(play.state).wanted[1]?.postAt ?? 0) - 60_000);
      await world.sync(play);
      await world.goTo(t('09:47'));
      await world.hear();
      for (const [rig, changed] of [
        ['rig-1', false],
        ['rig-2', true],
      ] as const) {
        play.at(rig === 'rig-1' ? '09:48' : '10:02').do({ type: 'start-flush', rig }, 'pia');
        play.flushTo('primary-flush', rig);
        await world.sync(play);
        const [posted] = world.posted();
        expect(posted?.edited).toBe(changed);
      }
      expect(world.posted()[0]?.text).toMatch(/Rig One: .*; Rig Two: .* by Pia/);
    }));

  it('a single rig left has a notice of its own again', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      await crowd(world, (world.day(play.state).wanted[1]?.postAt ?? 0) - 60_000, 30);
      await world.sync(play);
      play.at('08:20').do({ type: 'start-flush', rig: 'rig-2' }, 'lou');
      play.flushTo('primary-flush', 'rig-2');
      await world.sync(play);
      expect(ours(world).map(({ text }) => text)).toEqual(
        world.day(play.state).wanted.map(({ text }) => text),
      );
    }));
});
