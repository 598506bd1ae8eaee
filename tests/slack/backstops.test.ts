import { describe, expect, it } from 'vitest';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { mixed, type Play } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';
import { MINUTE, twoRigs, type World, withWorld } from './backstops-world.ts';

const START = t('08:00');

/** One full kit at 20 °C at 08:00 in rig 1: dead at 10:00, flush to be started by 09:46. */
const refOf = (world: World): string => refIn(world.slack.scheduled()[0]?.text ?? '') ?? 'none';

/** The flush of rig 1 up to the step that takes the paint out, ended `minutes` before the notice. */
function confirmBefore(play: Play, postAt: number, minutes: number): void {
  play.at(postAt - (minutes + 8) * MINUTE);
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo('primary-flush');
  expect(play.now).toBe(postAt - minutes * MINUTE);
  expect(play.rig().line).toBeNull();
}

// The rules of the platform: docs.slack.dev/reference/methods/chat.scheduleMessage and chat.deleteScheduledMessage; the
// five minutes: reports of users, slackhq/slack-api-docs 107 and slackapi/bolt-js 1000, 1857.
describe('a notice that waits in the platform', () => {
  it('is set after the batch, with text alone, and posts when Potbell is dead', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const [waiting] = world.slack.scheduled();
      expect(world.slack.scheduled()).toHaveLength(1);
      expect(waiting).toMatchObject({ neverPosts: false, blocks: [], attachments: [], threadTs: null });
      const [wanted] = world.day(play.state).wanted;
      expect(waiting?.postAt).toBe(wanted?.postAt);
      expect(world.slack.callsOf('chat.scheduleMessage')[0]?.args).not.toHaveProperty('metadata');
      expect(await world.stateOf(refOf(world))).toBe('armed');
      // From here on nobody calls Potbell.
      world.slack.clock.advance(3 * 60 * MINUTE);
      expect(world.posted().map(({ text }) => text)).toEqual([wanted?.text]);
      expect(world.troubles).toEqual([]);
    }));

  it('is not set twice by a commit that changes nothing of it', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      play.at('08:10').reading();
      await world.sync(play);
      expect(world.slack.callsOf('chat.scheduleMessage')).toHaveLength(1);
      expect(world.slack.callsOf('chat.deleteScheduledMessage')).toEqual([]);
    }));

  it('moves with the deadline: the new one is set before the old one is taken back', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const before = refOf(world);
      play.at('08:30').do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
      play.do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'max');
      await world.sync(play);
      const after = refOf(world);
      expect(after).not.toBe(before);
      expect(world.slack.scheduled()).toHaveLength(1);
      const called = world.slack.calls.map(({ method }) => method).filter((name) => !name.includes('.list'));
      expect(called).toEqual(['chat.scheduleMessage', 'chat.scheduleMessage', 'chat.deleteScheduledMessage']);
      expect(await world.stateOf(before)).toBe('cancelled');
      expect(await world.stateOf(after)).toBe('armed');
      world.slack.clock.advance(3 * 60 * MINUTE);
      expect(world.posted().map(({ text }) => refIn(text))).toEqual([after]);
    }));

  it('keeps the old one while the new one cannot be set, and takes it back once that is mended', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const before = refOf(world);
      play.at('08:30').do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'max');
      world.slack.fault('chat.scheduleMessage', { kind: 'error', error: 'not_in_channel' });
      await world.sync(play);
      expect(refOf(world)).toBe(before);
      expect(await world.stateOf(before)).toBe('armed');
      expect(world.troubles).toHaveLength(1);
      play.at('08:31').reading();
      await world.sync(play);
      expect(world.slack.scheduled()).toHaveLength(1);
      expect(await world.stateOf(before)).toBe('cancelled');
      expect(await world.stateOf(refOf(world))).toBe('armed');
    }));

  it('never posts when the flush is confirmed more than ten minutes before', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const ref = refOf(world);
      const postAt = world.slack.scheduled()[0]?.postAt ?? 0;
      confirmBefore(play, postAt, 11);
      await world.sync(play);
      expect(await world.stateOf(ref)).toBe('cancelled');
      world.slack.clock.advance(3 * 60 * MINUTE);
      expect(world.posted()).toEqual([]);
    }));

  it('posts although it was taken back when the confirm came four minutes before, says so, and is changed then', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const ref = refOf(world);
      const postAt = world.slack.scheduled()[0]?.postAt ?? 0;
      confirmBefore(play, postAt, 4);
      await world.sync(play);
      // The platform said yes and shows nothing any more; people are told how it is.
      expect(world.slack.scheduled()).toEqual([]);
      const [shown] = await world.backstops.states();
      expect(shown).toMatchObject({
        ref,
        state: 'cancel_uncertain',
        words: 'withdrawn too late, may still come',
      });
      world.slack.clock.advance(5 * MINUTE);
      expect(world.posted()).toHaveLength(1);
      await world.hear();
      const [posted] = world.posted();
      expect(posted?.edited).toBe(true);
      expect(posted?.text).toBe(
        `Backstop notice, ref ${ref}: the mixed paint is out. Rig One: paint out, confirmed 09:42 by Pia. This notice no longer counts; the rest of the flush does.`,
      );
      await world.hear();
      expect(world.slack.callsOf('chat.update')).toHaveLength(1);
      expect(await world.stateOf(ref)).toBe('fired');
    }));

  it('says that it may still come when the platform refuses in the last minute', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const ref = refOf(world);
      confirmBefore(play, world.slack.scheduled()[0]?.postAt ?? 0, 0.5);
      await world.sync(play);
      expect(world.slack.scheduled()).toHaveLength(1);
      expect(await world.stateOf(ref)).toBe('cancel_uncertain');
      world.slack.clock.advance(MINUTE);
      await world.hear();
      expect(world.posted()[0]?.text).toContain('confirmed 09:45 by Pia');
    }));

  it('stays as it is when nobody has confirmed, and is changed when somebody does later', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const ref = refOf(world);
      await world.goTo(t('09:47'));
      await world.hear();
      expect(world.posted()[0]?.edited).toBe(false);
      play.at('09:48').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      await world.sync(play);
      expect(world.posted()[0]?.edited).toBe(false);
      play.flushTo('primary-flush');
      await world.sync(play);
      expect(world.posted()[0]?.text).toContain(`ref ${ref}: the mixed paint is out`);
    }));

  it('stays in the channel, unchanged, when the primary flush was left out', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      play.at('09:00').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      play.flushTo('suction-out');
      const flush = play.rig().flush?.id ?? '';
      play.do({ type: 'skip-step', rig: 'rig-1', flush, step: 'primary-flush', reason: 'no solvent' }, 'pia');
      play.flushTo();
      await world.sync(play);
      await world.goTo(t('09:50'));
      await world.hear();
      expect(world.posted()).toMatchObject([{ edited: false }]);
    }));

  it('is changed after the platform was busy, at the time it named', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      confirmBefore(play, world.slack.scheduled()[0]?.postAt ?? 0, 4);
      await world.sync(play);
      world.slack.clock.advance(5 * MINUTE);
      world.slack.fault('chat.update', { kind: '429', retryAfter: 20 });
      await world.hear();
      expect(world.posted()[0]?.edited).toBe(false);
      expect(world.backstops.retryAt()).toBe(world.slack.clock.now() + 20_000);
      world.slack.clock.advance(20_000);
      await world.backstops.retry();
      expect(world.posted()[0]?.edited).toBe(true);
      expect(world.backstops.retryAt()).toBeNull();
    }));

  it('is one for each rig, and the confirm of one leaves the other', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      await world.sync(play);
      expect(world.slack.scheduled().map(({ text }) => refIn(text)?.slice(0, 12))).toEqual([
        '0512-rig-1-1',
        '0512-rig-2-1',
      ]);
      confirmBefore(play, world.slack.scheduled()[0]?.postAt ?? 0, 20);
      await world.sync(play);
      expect(world.slack.scheduled().map(({ text }) => refIn(text)?.slice(0, 12))).toEqual(['0512-rig-2-1']);
    }));

  it('of one shift is not touched by the commits of another', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      await world.backstops.sync({ date: '2026-05-13', wanted: [], confirmed: [], call: '112' });
      expect(world.slack.scheduled()).toHaveLength(1);
    }));
});
