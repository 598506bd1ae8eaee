import { describe, expect, it } from 'vitest';
import { createBackstops } from '../../adapters/slack/backstops.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { textsIn } from '../chat/site.ts';
import { mixed } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';
import { call } from '../peers/slack/world.ts';
import { CHANNEL, MINUTE, twoRigs, type World, webSender, withWorld } from './backstops-world.ts';

const START = t('08:00');
const never = () => new Promise<never>(() => {});
const refs = (world: World) => world.slack.scheduled().map(({ text }) => refIn(text));
const times = (world: World, method: string) => world.slack.callsOf(method).length;

describe('killed on the way', () => {
  it('between the intent and the platform: set by the next process, once', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      let reached = false;
      world.start((sender) => ({
        ...sender,
        schedule: () => {
          reached = true;
          return never();
        },
      }));
      void world.sync(play);
      await world.slack.until(() => reached);
      expect(world.slack.scheduled()).toEqual([]);
      const [{ ref, state } = { ref: '', state: '' }] = await world.backstops.states();
      expect(state).toBe('wanted');
      world.start();
      await world.sync(play);
      expect(refs(world)).toEqual([ref]);
      expect(await world.stateOf(ref)).toBe('armed');
    }));

  it('between the platform and the note of its id: found by its ref and not set twice', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      world.start((sender) => ({
        ...sender,
        schedule: async (notice) => {
          await sender.schedule(notice);
          return never();
        },
      }));
      void world.sync(play);
      await world.slack.until(() => world.slack.scheduled().length === 1);
      const [ref] = refs(world);
      world.start();
      await world.sync(play);
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(await world.stateOf(ref ?? '')).toBe('armed');
      // Its id is known now: it can be taken back.
      play.at('08:20').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      play.flushTo('primary-flush');
      await world.sync(play);
      expect(world.slack.scheduled()).toEqual([]);
    }));

  it('between the platform and the note of its id, with the flush confirmed since: taken back', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      world.start((sender) => ({
        ...sender,
        schedule: async (notice) => {
          await sender.schedule(notice);
          return never();
        },
      }));
      void world.sync(play);
      await world.slack.until(() => world.slack.scheduled().length === 1);
      const [ref] = refs(world);
      play.at('08:20').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      play.flushTo('primary-flush');
      world.start();
      await world.sync(play);
      expect(world.slack.scheduled()).toEqual([]);
      expect(await world.stateOf(ref ?? '')).toBe('cancelled');
    }));

  it('between the new one and the end of the old one: the old one is taken back by the next process', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      play.at('08:30').do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'max');
      world.start((sender) => ({ ...sender, unschedule: never }));
      void world.sync(play);
      await world.slack.until(() => world.slack.scheduled().length === 2);
      world.start();
      await world.sync(play);
      expect(refs(world)).toEqual(world.day(play.state).wanted.map(({ ref }) => ref));
    }));
});

describe('a restart', () => {
  it('changes nothing when all is as it was', () =>
    withWorld(START, async (world) => {
      const play = twoRigs();
      await world.sync(play);
      world.start();
      await world.sync(play);
      expect(times(world, 'chat.scheduleMessage')).toBe(2);
      expect(times(world, 'chat.deleteScheduledMessage')).toBe(0);
      expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed', 'armed']);
    }));

  it('sets again what somebody took out of the platform', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const which = { channel: CHANNEL, scheduled_message_id: world.slack.scheduled()[0]?.id };
      await call(world.slack, 'chat.deleteScheduledMessage', which);
      world.start();
      await world.sync(play);
      expect(world.slack.scheduled()).toHaveLength(1);
      expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed']);
    }));

  it('takes back what nobody wants, and only notices of this shift', () =>
    withWorld(START, async (world) => {
      const post_at = t('09:30') / 1000;
      for (const text of [
        'Backstop notice, ref 0512-rig-1-9a: old',
        'ref 0511-rig-1-1b: old',
        'lunch at 12:00',
      ])
        await call(world.slack, 'chat.scheduleMessage', { channel: CHANNEL, text, post_at });
      const play = mixed();
      await world.sync(play);
      const left = world.slack.scheduled().map(({ text }) => text);
      expect(left).toEqual([
        'ref 0511-rig-1-1b: old',
        'lunch at 12:00',
        world.day(play.state).wanted[0]?.text,
      ]);
    }));

  it('that lost what it remembered finds its own notice again', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const [ref] = refs(world);
      await world.memory.remove('slack', `backstop:${ref}`);
      world.start();
      await world.sync(play);
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(await world.stateOf(ref ?? '')).toBe('armed');
    }));

  it('that cannot read what it remembered says so and looks into the platform', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const [ref] = refs(world);
      await world.memory.put('slack', `backstop:${ref}`, '{"ref": 4');
      await world.sync(play);
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(await world.stateOf(ref ?? '')).toBe('armed');
      expect(world.logged.join()).toContain('cannot be read');
    }));

  it('after the time of the notice does not set it again', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const [ref] = refs(world);
      play.at('09:55');
      await world.goTo(play.now);
      world.start();
      await world.sync(play);
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(await world.stateOf(ref ?? '')).toBe('fired');
    }));
});

describe('no clear answer', () => {
  it('when it was taken: found in the list, not set twice', () =>
    withWorld(START, async (world) => {
      world.slack.fault('chat.scheduleMessage', { kind: 'accept-then-drop' });
      await world.sync(mixed());
      expect(world.slack.faultsLeft()).toBe(0);
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(world.slack.scheduled()).toHaveLength(1);
      expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed']);
      expect(world.troubles).toEqual([]);
    }));

  it('when it was not taken: looked for, then set', () =>
    withWorld(START, async (world) => {
      world.slack.fault('chat.scheduleMessage', { kind: 'drop' });
      await world.sync(mixed());
      expect(world.slack.calls.map(({ method }) => method)).toEqual([
        'chat.scheduledMessages.list',
        'chat.scheduleMessage',
        'chat.scheduledMessages.list',
        'chat.scheduleMessage',
      ]);
      expect(world.slack.scheduled()).toHaveLength(1);
      expect(world.troubles).toEqual([]);
    }));

  it('and no list: people hear it, nothing is sent blindly, and it is set when the platform is back', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      world.slack.fault('chat.scheduleMessage', { kind: 'accept-then-drop' });
      world.slack.fault('chat.scheduledMessages.list', { kind: 'drop' }, 3);
      await world.sync(play);
      expect(world.troubles).toEqual([
        expect.stringMatching(/^The backstop notice for Rig One \(ref .*, 09:46\) is not set/),
      ]);
      expect(world.troubles[0]).toContain('set an alarm of your own for 09:46');
      world.slack.clock.advance(30_000);
      await world.backstops.retry();
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect(world.troubles).toHaveLength(1);
      world.slack.clock.advance(30_000);
      expect(world.backstops.retryAt()).toBe(world.slack.clock.now());
      await world.backstops.retry();
      expect(times(world, 'chat.scheduleMessage')).toBe(1);
      expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed']);
      expect(world.backstops.retryAt()).toBeNull();
    }));

  it('to the taking back: asked again, and it is gone', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      await world.sync(play);
      const [ref = ''] = refs(world);
      play.at('08:20').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      play.flushTo('primary-flush');
      world.slack.fault('chat.deleteScheduledMessage', { kind: 'accept-then-drop' });
      await world.sync(play);
      expect(await world.stateOf(ref ?? '')).toBe('cancel_requested');
      world.slack.clock.advance(30_000);
      await world.backstops.retry();
      expect(await world.stateOf(ref ?? '')).toBe('cancelled');
      world.slack.clock.advance(180 * MINUTE);
      expect(world.posted()).toEqual([]);
    }));
});

describe('a notice that cannot be set', () => {
  it.each([['not_in_channel'], ['is_archived'], ['channel_not_found'], ['invalid_auth']])(
    '%s: people hear it once, and it is tried again at the next commit',
    (error) =>
      withWorld(START, async (world) => {
        const play = mixed();
        world.slack.fault('chat.scheduleMessage', { kind: 'error', error }, 2);
        await world.sync(play);
        await world.sync(play.at('08:01'));
        expect(world.troubles).toEqual([expect.stringContaining(error)]);
        expect(world.troubles[0]).toContain('could not be set in Slack');
        const [shown] = await world.backstops.states();
        expect(shown).toMatchObject({ state: 'refused', words: 'could not be set' });
        expect(shown?.why).toContain(error);
        await world.sync(play.at('08:02'));
        expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed']);
        expect(world.troubles).toHaveLength(1);
      }),
  );

  it('because the platform is busy for a moment: nobody hears it, it is set when the platform said', () =>
    withWorld(START, async (world) => {
      world.slack.fault('chat.scheduleMessage', { kind: '429', retryAfter: 5 });
      await world.sync(mixed());
      expect(world.troubles).toEqual([]);
      expect(world.backstops.retryAt()).toBe(world.slack.clock.now() + 5000);
      world.slack.clock.advance(5000);
      await world.backstops.retry();
      expect((await world.backstops.states()).map(({ state }) => state)).toEqual(['armed']);
    }));

  it('because the platform is busy again and again: people hear it', () =>
    withWorld(START, async (world) => {
      world.slack.fault('chat.scheduleMessage', { kind: '429', retryAfter: 5 }, 2);
      await world.sync(mixed());
      world.slack.clock.advance(5000);
      await world.backstops.retry();
      expect(world.troubles).toEqual([expect.stringContaining('Potbell tries again')]);
    }));

  it('because Potbell cannot write down what it is about to do: people hear it once', () =>
    withWorld(START, async (world) => {
      const play = mixed();
      let full = true;
      const memory = {
        ...world.memory,
        put: async (surface: string, key: string, value: string) => {
          if (full) throw new Error('disk full');
          return world.memory.put(surface, key, value);
        },
      };
      const backstops = createBackstops({
        memory,
        sender: webSender(world.slack),
        clock: world.slack.clock,
        log: { info: () => {}, warn: () => {}, error: () => {} },
        channel: CHANNEL,
        texts: () => textsIn('en'),
        onTrouble: (text) => void world.troubles.push(text),
      });
      await world.goTo(play.now);
      await backstops.sync(world.day(play.state));
      await backstops.sync(world.day(play.state));
      expect(world.troubles).toEqual([expect.stringContaining('disk full')]);
      expect(world.slack.scheduled()).toEqual([]);
      full = false;
      world.slack.clock.advance(30_000);
      await backstops.retry();
      expect(world.slack.scheduled()).toHaveLength(1);
    }));
});
