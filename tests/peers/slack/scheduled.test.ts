import { describe, expect, it } from 'vitest';
import { call, errorOf, START, withPeer } from './world.ts';

const NOW = START / 1000;
const MINUTE = 60;
const DAY = 24 * 60 * MINUTE;

// docs.slack.dev/reference/methods/chat.scheduleMessage and chat.deleteScheduledMessage.
describe('scheduled messages', () => {
  it('post when the clock reaches them, and not before', () =>
    withPeer(async (slack) => {
      const args = { channel: 'C01', text: 'flush by 07:00', post_at: NOW + 600 };
      const { body } = await call(slack, 'chat.scheduleMessage', args);
      expect(slack.scheduled()).toMatchObject([
        { id: body.scheduled_message_id, postAt: (NOW + 600) * 1000 },
      ]);
      slack.clock.advance(599_999);
      expect(slack.messages('C01')).toEqual([]);
      slack.clock.advance(1);
      expect(slack.messages('C01')).toMatchObject([{ text: 'flush by 07:00', user: slack.bot.userId }]);
      expect(slack.messages('C01')[0]?.ts.split('.')[0]).toBe(String(NOW + 600));
      expect(slack.scheduled()).toEqual([]);
    }));

  it('post in order of time when the clock jumps', () =>
    withPeer(async (slack) => {
      const at = (seconds: number, text: string) =>
        call(slack, 'chat.scheduleMessage', { channel: 'U01', text, post_at: NOW + seconds });
      await at(900, 'third');
      await at(700, 'first');
      await at(800, 'second');
      slack.clock.advance(3_600_000);
      expect(slack.messages(slack.dm('U01')).map((one) => one.text)).toEqual(['first', 'second', 'third']);
      expect(slack.clock.now()).toBe(START + 3_600_000);
    }));

  it('are refused in the past, too far ahead, and where the app is not', () =>
    withPeer(async (slack) => {
      const at = (post_at: unknown, channel = 'C01') =>
        errorOf(slack, 'chat.scheduleMessage', { channel, text: 'x', post_at });
      expect(await at(NOW)).toBe('time_in_past');
      expect(await at(NOW + 1)).toBe('ok');
      expect(await at(NOW + 120 * DAY)).toBe('ok');
      expect(await at(NOW + 120 * DAY + 1)).toBe('time_too_far');
      expect(await at('soon')).toBe('invalid_time');
      expect(await at(NOW + 600, 'C02')).toBe('not_in_channel');
    }));

  it('are thirty at most in five minutes of one channel', () =>
    withPeer(async (slack) => {
      const at = (post_at: number, channel = 'C01') =>
        errorOf(slack, 'chat.scheduleMessage', { channel, text: 'x', post_at });
      for (let index = 0; index < 30; index += 1) expect(await at(NOW + 600 + index)).toBe('ok');
      expect(await at(NOW + 600 + 299)).toBe('restricted_too_many');
      expect(await at(NOW + 600 + 300)).toBe('ok');
      expect(await at(NOW + 600, 'U01')).toBe('ok');
    }));

  it('can be taken back more than five minutes ahead', () =>
    withPeer(async (slack) => {
      const { body } = await call(slack, 'chat.scheduleMessage', {
        channel: 'C01',
        text: 'x',
        post_at: NOW + 301,
      });
      const which = { channel: 'C01', scheduled_message_id: body.scheduled_message_id };
      expect(await errorOf(slack, 'chat.deleteScheduledMessage', { ...which, channel: 'U01' })).toBe(
        'channel_not_found',
      );
      expect(await errorOf(slack, 'chat.deleteScheduledMessage', which)).toBe('ok');
      expect(await errorOf(slack, 'chat.deleteScheduledMessage', which)).toBe('invalid_scheduled_message_id');
      slack.clock.advance(600_000);
      expect(slack.messages('C01')).toEqual([]);
    }));

  // Reports of users at github.com/slackapi/bolt-js and github.com/slackhq/slack-api-docs, 2021 to 2026.
  it('post all the same when taken back within five minutes', () =>
    withPeer(async (slack) => {
      const { body } = await call(slack, 'chat.scheduleMessage', {
        channel: 'C01',
        text: 'x',
        post_at: NOW + 299,
      });
      const which = { channel: 'C01', scheduled_message_id: body.scheduled_message_id };
      expect(await errorOf(slack, 'chat.deleteScheduledMessage', which)).toBe('ok');
      expect((await call(slack, 'chat.scheduledMessages.list')).body.scheduled_messages).toEqual([]);
      slack.clock.advance(299_000);
      expect(slack.messages('C01').map((one) => one.text)).toEqual(['x']);
    }));

  it('cannot be taken back within a minute', () =>
    withPeer(async (slack) => {
      const { body } = await call(slack, 'chat.scheduleMessage', {
        channel: 'C01',
        text: 'x',
        post_at: NOW + 600,
      });
      slack.clock.advance(541_000);
      const which = { channel: 'C01', scheduled_message_id: body.scheduled_message_id };
      expect(await errorOf(slack, 'chat.deleteScheduledMessage', which)).toBe('invalid_scheduled_message_id');
      expect(slack.scheduled().length).toBe(1);
    }));

  // docs.slack.dev/reference/methods/chat.scheduleMessage, "Bug alert".
  it('never post when they carry metadata', () =>
    withPeer(async (slack) => {
      const metadata = { event_type: 'flush', event_payload: { id: 1 } };
      const args = { channel: 'C01', text: 'x', post_at: NOW + 600, metadata };
      expect(await errorOf(slack, 'chat.scheduleMessage', args)).toBe('ok');
      slack.clock.advance(700_000);
      expect(slack.messages('C01')).toEqual([]);
      expect(slack.scheduled()).toEqual([]);
    }));

  it('are lost without a word when the app has left the channel', () =>
    withPeer(async (slack) => {
      await call(slack, 'chat.scheduleMessage', { channel: 'C01', text: 'x', post_at: NOW + 600 });
      slack.botIn('C01', false);
      slack.clock.advance(700_000);
      expect(slack.messages('C01')).toEqual([]);
    }));

  it('are listed by time, page by page, without their blocks', () =>
    withPeer(async (slack) => {
      for (const seconds of [800, 700]) {
        await call(slack, 'chat.scheduleMessage', {
          channel: 'C01',
          text: `t${seconds}`,
          post_at: NOW + seconds,
        });
      }
      const { body } = await call(slack, 'chat.scheduledMessages.list', { limit: 1 });
      expect(body.scheduled_messages).toEqual([
        { id: 'Q00000002', channel_id: 'C01', post_at: NOW + 700, date_created: NOW, text: 't700' },
      ]);
      expect(body.response_metadata).not.toEqual({ next_cursor: '' });
    }));
});
