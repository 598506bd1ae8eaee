import { describe, expect, test } from 'vitest';
import { overHttp } from '../peers/slack/bolt.ts';
import type { SlackPeer } from '../peers/slack/peer.ts';
import { field, modal } from '../peers/slack/world.ts';
import { a, content, withSender } from './sender-helpers.ts';

const SECOND = 1000;
const last = (slack: SlackPeer, channel = 'C01') => slack.messages(channel).at(-1);

/** docs.slack.dev/apis/web-api/rate-limits; the peer here allows no bursts at all. */
describe('a channel’s turn', () => {
  test('that has not come is said at once, and nothing is called', () =>
    withSender(async ({ slack, sender, standing }) => {
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
      slack.clock.advance(400);
      expect(await sender.post(a('d2'))).toEqual({ kind: 'later', afterMs: 600 });
      expect(await sender.post({ ...a('d2'), lookFirst: true })).toEqual({ kind: 'later', afterMs: 600 });
      expect(slack.calls).toHaveLength(1);
      slack.clock.advance(600);
      expect(await sender.post(a('d2'))).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(2);
    }));

  test('is one message’s alone, however many ask at the same moment', () =>
    withSender(async ({ slack, sender }) => {
      const all = await Promise.all(['d1', 'd2', 'd3'].map((marker) => sender.post(a(marker))));
      expect(all.map(({ kind }) => kind)).toEqual(['ok', 'later', 'later']);
      expect(slack.calls).toHaveLength(1);
    }));

  test('a 429 holds up its own channel for as long as it says, and no other', () =>
    withSender(async ({ slack, sender, standing }) => {
      slack.fault('chat.postMessage', { kind: '429', retryAfter: 30 });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry', afterMs: 30_000 });
      expect(await sender.post(a('e1', 'C03'))).toMatchObject({ kind: 'ok' });
      slack.clock.advance(SECOND);
      expect(await sender.post(a('e2', 'C03'))).toMatchObject({ kind: 'ok' });
      expect(await sender.post(a('d2'))).toEqual({ kind: 'later', afterMs: 29_000 });
      slack.clock.advance(29 * SECOND);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
      expect([standing(), standing('C03')]).toMatchObject([{ length: 1 }, { length: 2 }]);
    }));
});

describe('messages', () => {
  test('are posted with their words and blocks, in a thread, and shown in the channel as well', () =>
    withSender(async ({ slack, sender }) => {
      const parent = await sender.post(a('d1'));
      expect(parent).toEqual({ kind: 'ok', value: { channel: 'C01', ts: last(slack)?.ts } });
      expect(last(slack)).toMatchObject(content('d1'));
      const threadTs = parent.kind === 'ok' ? parent.value.ts : '';
      slack.clock.advance(SECOND);
      await sender.post({ ...a('d2'), threadTs });
      expect(last(slack)).toMatchObject({ threadTs, ...content('d2') });
      slack.clock.advance(SECOND);
      await sender.post({ ...a('d3'), threadTs, broadcast: true });
      expect(slack.callsOf('chat.postMessage').map(({ args }) => args.reply_broadcast)).toEqual([
        undefined,
        undefined,
        'true',
      ]);
    }));

  test('are changed and taken away', () =>
    withSender(async ({ slack, sender, standing }) => {
      await sender.post(a('d1'));
      const at = { channel: 'C01', ts: last(slack)?.ts ?? '' };
      expect(await sender.update({ ...at, ...content('d1b', 'Five of seven') })).toEqual({
        kind: 'ok',
        value: at,
      });
      expect(last(slack)).toMatchObject({ edited: true, ...content('d1b', 'Five of seven') });
      expect(await sender.delete(at)).toEqual({ kind: 'ok', value: null });
      expect(standing()).toEqual([]);
      expect(await sender.delete(at)).toMatchObject({ kind: 'gone', code: 'message_not_found' });
      slack.clock.advance(2 * SECOND);
      const gone = await sender.update({ ...at, ...content('d1c') });
      expect(gone).toMatchObject({ kind: 'gone', code: 'message_not_found' });
    }));

  test('change every 2 s at most, each for itself; a 429 of an update holds up no new message', () =>
    withSender(async ({ slack, sender }) => {
      await sender.post(a('d1'));
      await sender.post(a('e1', 'C03'));
      const one = { channel: 'C01', ts: last(slack)?.ts ?? '' };
      const other = { channel: 'C03', ts: last(slack, 'C03')?.ts ?? '' };
      expect(await sender.update({ ...one, ...content('x') })).toMatchObject({ kind: 'ok' });
      expect(await sender.update({ ...one, ...content('y') })).toEqual({ kind: 'later', afterMs: 2000 });
      slack.clock.advance(2 * SECOND);
      slack.fault('chat.update', { kind: '429', retryAfter: 9 });
      expect(await sender.update({ ...one, ...content('y') })).toMatchObject({
        kind: 'retry',
        afterMs: 9000,
      });
      slack.clock.advance(2 * SECOND);
      expect(await sender.update({ ...one, ...content('y') })).toEqual({ kind: 'later', afterMs: 7000 });
      expect(await sender.update({ ...other, ...content('y') })).toMatchObject({ kind: 'ok' });
      expect(await sender.post(a('d2'))).toMatchObject({ kind: 'ok' });
    }));

  test('reach one person in their own conversation', () =>
    withSender(async ({ slack, sender }) => {
      expect(await sender.openDm('U01')).toEqual({ kind: 'ok', value: slack.dm('U01') });
      expect(await sender.post(a('d1', slack.dm('U01')))).toMatchObject({ kind: 'ok' });
      expect(slack.seenBy('U01', slack.dm('U01'))).toHaveLength(1);
      expect(await sender.openDm('U03')).toMatchObject({ kind: 'gone', code: 'user_disabled' });
    }));

  test('that stand can be read: newest first in a channel, a thread with its first message', () =>
    withSender(async ({ slack, sender }) => {
      const first = await sender.post(a('d1'));
      slack.clock.advance(SECOND);
      await slack.say('U01', 'C01', 'Hello');
      const threadTs = first.kind === 'ok' ? first.value.ts : '';
      await sender.post({ ...a('d2'), threadTs });
      expect(await sender.read({ channel: 'C01' })).toMatchObject({
        kind: 'ok',
        value: [
          { text: 'Hello', botId: null },
          { ts: threadTs, botId: slack.bot.botId, blockIds: content('d1').blocks.map((one) => one.block_id) },
        ],
      });
      expect(await sender.read({ channel: 'C01', threadTs })).toMatchObject({
        kind: 'ok',
        value: [{ ts: threadTs }, { threadTs, ts: last(slack)?.ts }],
      });
    }));
});

/** docs.slack.dev/interactivity/handling-user-interaction: 5 times within 30 minutes. */
test('an answer to a press is seen by the presser alone, five times', () =>
  withSender(async ({ slack, sender }) => {
    let url = '';
    const app = await overHttp(slack, (bolt) => {
      bolt.command('/rig', async ({ ack, body }) => {
        url = body.response_url;
        await ack();
      });
    });
    await slack.command('U01', '/rig', '', 'C01');
    await app.stop();
    for (let use = 0; use < 5; use += 1)
      expect(await sender.respond(url, content(`r${use}`))).toEqual({ kind: 'ok', value: null });
    expect(last(slack)).toMatchObject({ ephemeralTo: 'U01', ...content('r4') });
    expect(slack.seenBy('U02', 'C01')).toEqual([]);
    expect(await sender.respond(url, content('r5'))).toMatchObject({
      kind: 'gone',
      code: 'expired_url',
      why: expect.stringContaining('press the button again'),
    });
    expect(slack.messages('C01')).toHaveLength(5);
  }));

describe('forms', () => {
  test('are opened, put one over the other, and changed only in the state they are known in', () =>
    withSender(async ({ slack, sender }) => {
      const view = (title: string) => modal(title, field('litres', 'Litres'));
      const opened = await sender.openView(slack.trigger('U01'), view('Batch'));
      expect(opened).toEqual({
        kind: 'ok',
        value: { id: slack.modals('U01')[0]?.id, hash: slack.modals('U01')[0]?.hash },
      });
      if (opened.kind !== 'ok') return;
      expect(await sender.updateView(opened.value, view('Batch 2'))).toMatchObject({ kind: 'ok' });
      expect(await sender.updateView(opened.value, view('Batch 3'))).toMatchObject({
        kind: 'gone',
        code: 'hash_conflict',
      });
      expect(await sender.updateView({ ...opened.value, hash: null }, view('Batch 4'))).toMatchObject({
        kind: 'ok',
      });
      expect(slack.modals('U01')[0]?.view).toMatchObject({ title: { text: 'Batch 4' } });
      const late = slack.trigger('U01');
      slack.clock.advance(3001);
      expect(await sender.openView(late, view('Late'))).toMatchObject({
        kind: 'gone',
        code: 'expired_trigger_id',
      });
    }));

  test('can be put over the one a press came from', () =>
    withSender(async ({ slack, sender }) => {
      const asked = {
        type: 'actions' as const,
        block_id: 'r',
        elements: [
          { type: 'button' as const, text: { type: 'plain_text' as const, text: 'More' }, action_id: 'more' },
        ],
      };
      const pushed: unknown[] = [];
      const app = await overHttp(slack, (bolt) => {
        bolt.action('more', async ({ ack, body }) => {
          await ack();
          if (body.type === 'block_actions')
            pushed.push(await sender.pushView(body.trigger_id, modal('Over')));
        });
      });
      await sender.openView(slack.trigger('U01'), { ...modal('Under'), blocks: [asked] });
      await slack.pressIn('U01', 'modal', { actionId: 'more' });
      await slack.until(() => pushed.length === 1);
      await app.stop();
      expect(pushed).toMatchObject([{ kind: 'ok' }]);
      expect(slack.modals('U01').map(({ view }) => view.title)).toMatchObject([
        { text: 'Under' },
        { text: 'Over' },
      ]);
    }));

  test('a home is published for one person', () =>
    withSender(async ({ slack, sender }) => {
      const home = { type: 'home' as const, blocks: [] };
      expect(await sender.publishHome('U01', home)).toMatchObject({
        kind: 'ok',
        value: { id: slack.home('U01')?.id },
      });
      expect(await sender.publishHome('U01', home, 'old')).toMatchObject({
        kind: 'gone',
        code: 'hash_conflict',
      });
      expect(await sender.publishHome('U99', home)).toMatchObject({ kind: 'gone', code: 'user_not_found' });
    }));
});
