import { describe, expect, test } from 'vitest';
import type { SlackPeer } from '../peers/slack/peer.ts';
import { message, render } from './render-helpers.ts';
import { a, content, withSender } from './sender-helpers.ts';

const SECOND = 1000;

/** A clock that has gone on by 2 s after each look. */
const whenLookingTakes2s = (slack: SlackPeer) => () =>
  slack.clock.now() + slack.callsOf('conversations.history').length * 2 * SECOND;

describe('exactly one message stands', () => {
  test.each([
    ['taken and then the connection dropped', 'accept-then-drop', 1],
    ['dropped without being taken', 'drop', 0],
  ] as const)('%s', (_, kind, stood) =>
    withSender(async ({ slack, sender, standing }) => {
      slack.fault('chat.postMessage', { kind });
      const first = await sender.post(a('d1'));
      expect(first.kind).toBe('unclear');
      expect(standing()).toHaveLength(stood);
      slack.clock.advance(SECOND);
      const second = await sender.post({ ...a('d1'), lookFirst: true });
      expect(second).toEqual({ kind: 'ok', value: { channel: 'C01', ts: slack.messages('C01')[0]?.ts } });
      expect(standing()).toHaveLength(1);
      // Looked for, and posted anew only when it was not there.
      expect(slack.callsOf('conversations.history')).toHaveLength(1);
      expect(slack.callsOf('chat.postMessage')).toHaveLength(stood === 1 ? 1 : 2);
      expect(slack.faultsLeft()).toBe(0);
    }),
  );

  test.each([502, 503])('HTTP %i in between', (status) =>
    withSender(async ({ slack, sender, standing }) => {
      slack.fault('chat.postMessage', { kind: 'status', status });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'unclear' });
      expect(standing()).toEqual([]);
      slack.clock.advance(SECOND);
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
    }),
  );

  test.each([true, false])('no answer in time; taken all the same: %s', (accepted) =>
    withSender(async ({ slack, sender, restarted, standing }) => {
      slack.fault('chat.postMessage', { kind: 'hang', accepted });
      const impatient = restarted({ timeoutMs: 50 });
      expect(await impatient.post(a('d1'))).toEqual({
        kind: 'unclear',
        why: 'Slack did not answer in time; it may have been shown or not.',
      });
      slack.clock.advance(SECOND);
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
    }),
  );

  test('the process dies between the post and writing it down', () =>
    withSender(async ({ slack, sender, restarted, standing }) => {
      await sender.post(a('d1'));
      const after = restarted();
      slack.clock.advance(SECOND);
      expect(await after.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
    }));

  test('in a thread, where the conversation alone does not show it', () =>
    withSender(async ({ slack, sender, standing }) => {
      const parent = await sender.post(a('d0'));
      const threadTs = parent.kind === 'ok' ? parent.value.ts : '';
      slack.clock.advance(SECOND);
      slack.fault('chat.postMessage', { kind: 'accept-then-drop' });
      expect(await sender.post({ ...a('d1'), threadTs })).toMatchObject({ kind: 'unclear' });
      slack.clock.advance(SECOND);
      const again = await sender.post({ ...a('d1'), threadTs, lookFirst: true });
      expect(again).toMatchObject({ kind: 'ok', value: { ts: slack.messages('C01')[1]?.ts } });
      expect(standing()).toHaveLength(2);
      expect(slack.callsOf('conversations.replies')).toHaveLength(1);
    }));

  test('the words of the second try may differ: the marker counts', () =>
    withSender(async ({ slack, sender, standing }) => {
      slack.fault('chat.postMessage', { kind: 'accept-then-drop' });
      await sender.post(a('d1'));
      slack.clock.advance(SECOND);
      const reworded = { channel: 'C01', marker: 'd1', ...content('d1', 'You may have seen this already') };
      expect(await sender.post({ ...reworded, lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toEqual([expect.stringContaining('flush, d1')]);
    }));
});

describe('looking', () => {
  test('is not fooled by a marker that only begins the same', () =>
    withSender(async ({ slack, sender, standing }) => {
      await sender.post(a('d11'));
      slack.clock.advance(SECOND);
      await sender.post({ ...a('d1'), lookFirst: true });
      expect(standing()).toHaveLength(2);
    }));

  test('tells the parts of one message apart', () =>
    withSender(async ({ slack, sender }) => {
      const parts = render(
        message(
          Array.from({ length: 60 }, (_, index) => ({ kind: 'heading', text: `Step ${index + 1}` }) as const),
        ),
        { revision: 'd1' },
      );
      const posts = parts.map(({ text, blocks }) => ({ channel: 'C01', marker: 'd1', text, blocks }));
      const [first] = posts;
      if (first === undefined || posts.length < 2) throw new Error('The message has no second part.');
      await sender.post(first);
      for (const part of posts) {
        slack.clock.advance(SECOND);
        expect(await sender.post({ ...part, lookFirst: true })).toMatchObject({ kind: 'ok' });
      }
      expect(slack.messages('C01').map(({ text }) => text)).toEqual(parts.map(({ text }) => text));
    }));

  test('goes by the marker alone where the first block has none', () =>
    withSender(async ({ slack, sender, standing }) => {
      const extra = { type: 'divider' as const };
      const post = { ...a('d1'), blocks: [extra, ...a('d1').blocks] };
      await sender.post(post);
      slack.clock.advance(SECOND);
      expect(await sender.post({ ...post, lookFirst: true })).toMatchObject({ kind: 'ok' });
      slack.clock.advance(SECOND);
      expect(await sender.post({ ...post, blocks: [extra], lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
    }));

  test('is not done for a first try', () =>
    withSender(async ({ slack, sender }) => {
      await sender.post(a('d1'));
      expect(slack.calls.map(({ method }) => method)).toEqual(['chat.postMessage']);
    }));

  test.each([
    ['drop', 'unclear'],
    ['refused connection', 'retry'],
  ] as const)('that fails by %s posts nothing', (how, kind) =>
    withSender(async ({ slack, sender, standing }) => {
      if (how === 'drop') slack.fault('conversations.history', { kind: 'drop' });
      else await slack.down(true);
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind });
      await slack.down(false);
      expect(standing()).toEqual([]);
    }),
  );

  test('that is asked to wait is no try at all', () =>
    withSender(async ({ slack, sender, standing }) => {
      slack.fault('conversations.history', { kind: '429', retryAfter: 4 });
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toEqual({ kind: 'later', afterMs: 4000 });
      expect(standing()).toEqual([]);
    }));

  test('that is not allowed holds nothing back: said twice is better than never, and the log tells why', () =>
    withSender(async ({ slack, sender, standing, logged }) => {
      slack.fault('conversations.history', { kind: 'error', error: 'missing_scope' });
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
      expect(logged).toEqual([expect.stringMatching(/could not look .*manifest.*missing_scope/)]);
    }));

  test('that took long leaves the post to the next call, which does not look again', () =>
    withSender(async ({ slack, restarted, standing }) => {
      const sender = restarted({ now: whenLookingTakes2s(slack) });
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toEqual({ kind: 'later', afterMs: 0 });
      expect(standing()).toEqual([]);
      expect(await sender.post({ ...a('d1'), lookFirst: true })).toMatchObject({ kind: 'ok' });
      expect(standing()).toHaveLength(1);
      expect(slack.callsOf('conversations.history')).toHaveLength(1);
    }));

  test('is done again after the post that followed it was unclear in its turn', () =>
    withSender(async ({ slack, restarted, standing }) => {
      const sender = restarted({ now: whenLookingTakes2s(slack) });
      const again = { ...a('d1'), lookFirst: true };
      await sender.post(again);
      slack.fault('chat.postMessage', { kind: 'accept-then-drop' });
      expect(await sender.post(again)).toMatchObject({ kind: 'unclear' });
      slack.clock.advance(SECOND);
      expect(await sender.post(again)).toMatchObject({ kind: 'ok' });
      expect(slack.callsOf('conversations.history')).toHaveLength(2);
      expect(standing()).toHaveLength(1);
    }));
});
