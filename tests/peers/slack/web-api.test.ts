import { describe, expect, it } from 'vitest';
import { button, call, errorOf, row, withPeer } from './world.ts';

// Names of refusals: docs.slack.dev/reference/methods.
describe('the Web API', () => {
  it('wants the right token', () =>
    withPeer(async (slack) => {
      expect(await errorOf(slack, 'auth.test', {}, '')).toBe('not_authed');
      expect(await errorOf(slack, 'auth.test', {}, 'xoxb-other')).toBe('invalid_auth');
      expect(await errorOf(slack, 'auth.test', {}, slack.tokens.app)).toBe('not_allowed_token_type');
      expect(await errorOf(slack, 'apps.connections.open')).toBe('not_allowed_token_type');
      expect(await errorOf(slack, 'auth.test', { token: slack.tokens.bot }, '')).toBe('ok');
      slack.badToken(true);
      expect(await errorOf(slack, 'auth.test')).toBe('invalid_auth');
      slack.badToken(false);
      expect((await call(slack, 'auth.test')).body).toMatchObject({ ok: true, user_id: slack.bot.userId });
      expect(await errorOf(slack, 'chat.shout')).toBe('unknown_method');
    }));

  it('refuses what cannot be posted', () =>
    withPeer(async (slack) => {
      const post = (args: Record<string, unknown>) => errorOf(slack, 'chat.postMessage', args);
      expect(await post({ text: 'x' })).toBe('channel_not_found');
      expect(await post({ channel: 'C99', text: 'x' })).toBe('channel_not_found');
      expect(await post({ channel: 'C02', text: 'x' })).toBe('not_in_channel');
      expect(await post({ channel: 'G01', text: 'x' })).toBe('channel_not_found');
      expect(await post({ channel: 'U03', text: 'x' })).toBe('channel_not_found');
      expect(await post({ channel: 'C01' })).toBe('no_text');
      expect(await post({ channel: 'C01', text: 'x', thread_ts: '1.2' })).toBe('thread_not_found');
      expect(await post({ channel: 'C01', text: 'x', markdown_text: 'y' })).toBe('markdown_text_conflict');
      expect(await post({ channel: 'C01', text: 'x', blocks: 'no json' })).toBe('invalid_blocks_format');
      expect(await post({ channel: 'C01', text: 'x', metadata: { event_type: '' } })).toBe(
        'invalid_metadata_schema',
      );
      expect(await post({ channel: 'C01', text: 'x', attachments: Array(101).fill({}) })).toBe(
        'too_many_attachments',
      );
      expect(slack.messages('C01')).toEqual([]);
      slack.archive('C01');
      expect(await post({ channel: 'C01', text: 'x' })).toBe('is_archived');
    }));

  it('checks blocks and keeps nothing of a refused message', () =>
    withPeer(async (slack) => {
      const blocks = [row('a', button('x'.repeat(76), 'go'))];
      const { body } = await call(slack, 'chat.postMessage', { channel: 'C01', text: 'x', blocks });
      expect(body).toMatchObject({
        ok: false,
        error: 'invalid_blocks',
        errors: [
          { code: 'failed_constraint', pointer: '/0/elements/0/text/text', constraint: { expected: 75 } },
        ],
      });
      expect(slack.messages('C01')).toEqual([]);
    }));

  it('cuts a long text when posting and refuses it when updating', () =>
    withPeer(async (slack) => {
      const { body } = await call(slack, 'chat.postMessage', { channel: 'C01', text: 'x'.repeat(40_001) });
      expect(body).toMatchObject({ ok: true, warning: 'message_truncated' });
      expect(slack.messages('C01')[0]?.text.length).toBe(40_000);
      const update = (text: string) =>
        errorOf(slack, 'chat.update', { channel: 'C01', ts: String(body.ts), text });
      expect(await update('x'.repeat(4001))).toBe('msg_too_long');
      expect(await update('x'.repeat(4000))).toBe('ok');
    }));

  it('updates only what is there and its own', () =>
    withPeer(async (slack) => {
      const update = (args: Record<string, unknown>) => errorOf(slack, 'chat.update', args);
      const { ts } = await slack.say('U01', 'C01', 'mine');
      expect(await update({ channel: 'C01', ts, text: 'x' })).toBe('cant_update_message');
      expect(await errorOf(slack, 'chat.delete', { channel: 'C01', ts })).toBe('cant_delete_message');
      expect(await update({ channel: 'C01', ts: '1.000001', text: 'x' })).toBe('message_not_found');
      const dm = await call(slack, 'chat.postMessage', { channel: 'U01', text: 'a' });
      expect(dm.body.channel).toBe(slack.dm('U01'));
      const of = { ts: String(dm.body.ts), text: 'b' };
      expect(await update({ channel: 'U01', ...of })).toBe('channel_not_found');
      expect(await update({ channel: slack.dm('U01'), ...of })).toBe('ok');
      const shown = await call(slack, 'chat.postEphemeral', { channel: 'C01', user: 'U02', text: 'psst' });
      const ephemeral = String(shown.body.message_ts);
      expect(await update({ channel: 'C01', ts: ephemeral, text: 'x' })).toBe('message_not_found');
      expect(slack.seenBy('U02', 'C01').length).toBe(2);
      expect(slack.seenBy('U01', 'C01').length).toBe(1);
      expect(await errorOf(slack, 'chat.postEphemeral', { channel: 'C01', user: 'U03', text: 'x' })).toBe(
        'user_not_in_channel',
      );
    }));

  it('keeps blocks that an update leaves out and takes away an empty list', () =>
    withPeer(async (slack) => {
      const blocks = [row('a', button('Go', 'go'))];
      const { body } = await call(slack, 'chat.postMessage', { channel: 'C01', text: 'x', blocks });
      const ts = String(body.ts);
      await call(slack, 'chat.update', { channel: 'C01', ts, text: 'y' });
      expect(slack.messages('C01')[0]).toMatchObject({ text: 'y', blocks });
      await call(slack, 'chat.update', { channel: 'C01', ts, text: 'z', blocks: [] });
      expect(slack.messages('C01')[0]).toMatchObject({ text: 'z', blocks: [] });
      await call(slack, 'chat.delete', { channel: 'C01', ts });
      expect(slack.seenBy('U01', 'C01')).toEqual([]);
      expect(await errorOf(slack, 'chat.update', { channel: 'C01', ts, text: 'x' })).toBe(
        'message_not_found',
      );
    }));

  // docs.slack.dev/apis/web-api/rate-limits: 1 a second a channel; the burst of 3 is ours.
  it('takes one message a second in a channel after a burst of three', () =>
    withPeer(async (slack) => {
      const post = (channel: string) => call(slack, 'chat.postMessage', { channel, text: 'x' });
      for (let index = 0; index < 3; index += 1) expect((await post('C01')).status).toBe(200);
      const refused = await post('C01');
      expect(refused).toMatchObject({
        status: 429,
        retryAfter: '1',
        body: { ok: false, error: 'ratelimited' },
      });
      expect((await post('U01')).status).toBe(200);
      slack.clock.advance(1000);
      expect((await post('C01')).status).toBe(200);
      expect((await post('C01')).status).toBe(429);
      expect(slack.messages('C01').length).toBe(4);
      // A long silence saves up no more than one burst.
      slack.clock.advance(60_000);
      for (let index = 0; index < 3; index += 1) expect((await post('C01')).status).toBe(200);
      expect((await post('C01')).status).toBe(429);
    }));

  it('takes fifty updates a minute in the whole workspace', () =>
    withPeer(async (slack) => {
      const { body } = await call(slack, 'chat.postMessage', { channel: 'C01', text: 'x' });
      const update = () => call(slack, 'chat.update', { channel: 'C01', ts: String(body.ts), text: 'y' });
      for (let index = 0; index < 50; index += 1) expect((await update()).status).toBe(200);
      expect(await update()).toMatchObject({ status: 429, retryAfter: '60' });
      slack.clock.advance(60_000);
      expect((await update()).status).toBe(200);
    }));

  it('reads conversations page by page', () =>
    withPeer(async (slack) => {
      const first = await slack.say('U01', 'C01', 'one');
      slack.clock.advance(1000);
      await slack.say('U02', 'C01', 'answer', { threadTs: first.ts });
      await slack.say('U02', 'C01', 'two');
      const history = (args: Record<string, unknown>) =>
        call(slack, 'conversations.history', { channel: 'C01', ...args });
      const page = await history({ limit: 1 });
      expect(page.body).toMatchObject({ has_more: true, messages: [{ text: 'two' }] });
      const metadata = page.body.response_metadata;
      const cursor =
        typeof metadata === 'object' && metadata !== null && 'next_cursor' in metadata
          ? metadata.next_cursor
          : '';
      expect((await history({ limit: 1, cursor })).body).toMatchObject({
        messages: [{ text: 'one', reply_count: 1 }],
      });
      expect((await history({ oldest: first.ts })).body).toMatchObject({ messages: [{ text: 'two' }] });
      expect((await history({ oldest: first.ts, inclusive: true })).body).toMatchObject({
        messages: [{}, { text: 'one' }],
      });
      const replies = await call(slack, 'conversations.replies', { channel: 'C01', ts: first.ts });
      expect(replies.body).toMatchObject({
        messages: [{ text: 'one' }, { text: 'answer', thread_ts: first.ts }],
      });
      expect(await errorOf(slack, 'conversations.history', { channel: 'C02' })).toBe('not_in_channel');
    }));

  it('knows people and groups', () =>
    withPeer(async (slack) => {
      expect((await call(slack, 'users.info', { user: 'U02' })).body).toMatchObject({
        user: { is_restricted: true },
      });
      expect(await errorOf(slack, 'users.info', { user: 'U99' })).toBe('user_not_found');
      expect((await call(slack, 'users.list', { limit: 2 })).body).toMatchObject({
        members: [{ id: 'U01' }, { id: 'U02' }],
      });
      const members = await call(slack, 'conversations.members', { channel: 'C01' });
      expect(members.body.members).toEqual(['U01', 'U02', slack.bot.userId]);
      const group = await call(slack, 'usergroups.users.list', { usergroup: 'S01' });
      expect(group.body.users).toEqual(['U01', 'U02']);
      expect(await errorOf(slack, 'usergroups.users.list', { usergroup: 'S99' })).toBe('no_such_subteam');
      expect((await call(slack, 'conversations.open', { users: 'U01' })).body).toMatchObject({
        channel: { id: 'D01' },
      });
      expect((await call(slack, 'conversations.open', { users: 'U01' })).body).toMatchObject({
        already_open: true,
      });
      expect(await errorOf(slack, 'conversations.open', { users: 'U03' })).toBe('user_disabled');
      expect((await call(slack, 'bots.info', { bot: slack.bot.botId })).body).toMatchObject({
        bot: { name: 'potbell' },
      });
    }));

  it('has no user groups on a free plan', () =>
    withPeer(
      async (slack) => {
        expect(await errorOf(slack, 'usergroups.users.list', { usergroup: 'S01' })).toBe(
          'plan_upgrade_required',
        );
      },
      { freePlan: true },
    ));
});
