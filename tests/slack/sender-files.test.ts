import { describe, expect, test } from 'vitest';
import { a, content, withSender } from './sender-helpers.ts';

const SECOND = 1000;
const bytes = new TextEncoder().encode('rig,litres\n1,20\n');
const record = (marker: string) => ({ ...a(marker), name: 'shift.csv', title: 'Shift record', bytes });

/** docs.slack.dev/messaging/working-with-files: three steps. */
describe('files', () => {
  test('stand in the channel with their words, byte for byte', () =>
    withSender(async ({ slack, sender }) => {
      const sent = await sender.upload(record('f1'));
      const [shown] = slack.messages('C01');
      const id = shown?.files[0]?.id ?? '';
      expect(sent).toEqual({ kind: 'ok', value: id });
      expect(shown).toMatchObject({
        blocks: content('f1').blocks,
        files: [{ name: 'shift.csv', title: 'Shift record' }],
      });
      expect(new Uint8Array(slack.file(id)?.bytes ?? [])).toEqual(bytes);
      expect(await sender.post(a('d1'))).toEqual({ kind: 'later', afterMs: 1000 });
    }));

  test('go into a thread', () =>
    withSender(async ({ slack, sender }) => {
      const parent = await sender.post(a('d1'));
      const threadTs = parent.kind === 'ok' ? parent.value.ts : '';
      slack.clock.advance(SECOND);
      expect(await sender.upload({ ...record('f1'), threadTs })).toMatchObject({ kind: 'ok' });
      expect(slack.messages('C01')[1]).toMatchObject({ threadTs, files: [{ name: 'shift.csv' }] });
    }));

  test('shown and then the connection dropped: one stands', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('files.completeUploadExternal', { kind: 'accept-then-drop' });
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'unclear' });
      slack.clock.advance(SECOND);
      expect(await sender.upload({ ...record('f1'), lookFirst: true })).toEqual({ kind: 'ok', value: null });
      expect(slack.messages('C01')).toHaveLength(1);
      expect(slack.callsOf('files.getUploadURLExternal')).toHaveLength(1);
    }));

  test('dropped before it was shown is no doubt: nobody has seen it', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('files.getUploadURLExternal', { kind: 'accept-then-drop' });
      expect(await sender.upload(record('f1'))).toMatchObject({
        kind: 'retry',
        why: expect.stringContaining('not shown yet'),
      });
      slack.clock.advance(SECOND);
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'ok' });
      expect(slack.messages('C01')).toHaveLength(1);
    }));

  test('a 429 at the end does not bring the bytes a second time, and holds the channel', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('files.completeUploadExternal', { kind: '429', retryAfter: 5 });
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'retry', afterMs: 5000 });
      expect(await sender.post(a('d1'))).toEqual({ kind: 'later', afterMs: 5000 });
      slack.clock.advance(5 * SECOND);
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'ok' });
      expect(slack.callsOf('files.getUploadURLExternal')).toHaveLength(1);
    }));

  test('that took long to bring are shown by the next call', () =>
    withSender(async ({ slack, restarted }) => {
      const now = () => slack.clock.now() + slack.callsOf('files.getUploadURLExternal').length * 2 * SECOND;
      const sender = restarted({ now });
      expect(await sender.upload(record('f1'))).toEqual({ kind: 'later', afterMs: 0 });
      expect(slack.messages('C01')).toEqual([]);
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'ok' });
      expect(slack.callsOf('files.getUploadURLExternal')).toHaveLength(1);
    }));

  test('that the platform has lost are brought anew', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('files.completeUploadExternal', { kind: 'error', error: 'file_not_found' });
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'gone', code: 'file_not_found' });
      slack.clock.advance(SECOND);
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'ok' });
      expect(slack.callsOf('files.getUploadURLExternal')).toHaveLength(2);
    }));

  test('in a channel that is gone', () =>
    withSender(async ({ slack, sender }) => {
      slack.archive('C01');
      expect(await sender.upload(record('f1'))).toMatchObject({ kind: 'gone', code: 'is_archived' });
    }));
});

/** docs.slack.dev/reference/methods/chat.scheduleMessage, chat.deleteScheduledMessage, chat.scheduledMessages.list. */
describe('messages for later', () => {
  const inMinutes = (slack: { clock: { now(): number } }, minutes: number) =>
    slack.clock.now() + minutes * 60 * SECOND;

  test('are held, listed by their words, and posted by the platform at their second', () =>
    withSender(async ({ slack, sender, standing }) => {
      const postAt = inMinutes(slack, 30) - 400;
      const armed = await sender.schedule({ channel: 'C01', postAt, ...content('b1') });
      const held = {
        id: slack.scheduled()[0]?.id,
        channel: 'C01',
        postAt: postAt + 400,
        text: content('b1').text,
      };
      expect(armed).toEqual({ kind: 'ok', value: held });
      expect(await sender.scheduledList('C01')).toEqual({ kind: 'ok', value: [held] });
      expect(await sender.scheduledList('C03')).toEqual({ kind: 'ok', value: [] });
      slack.clock.advance(30 * 60 * SECOND);
      expect(standing()).toHaveLength(1);
      expect(slack.callsOf('chat.scheduleMessage')[0]?.args).not.toHaveProperty('metadata');
    }));

  test('are taken back, unless it is too late', () =>
    withSender(async ({ slack, sender, standing }) => {
      const ids: string[] = [];
      for (const minutes of [30, 20]) {
        const armed = await sender.schedule({
          channel: 'C01',
          postAt: inMinutes(slack, minutes),
          ...content('b1'),
        });
        if (armed.kind === 'ok') ids.push(armed.value.id);
      }
      expect(await sender.unschedule({ channel: 'C01', id: ids[0] ?? '' })).toEqual({
        kind: 'ok',
        value: null,
      });
      slack.clock.advance(20 * 60 * SECOND - 59_000);
      expect(await sender.unschedule({ channel: 'C01', id: ids[1] ?? '' })).toMatchObject({
        kind: 'gone',
        code: 'invalid_scheduled_message_id',
      });
      slack.clock.advance(30 * 60 * SECOND);
      expect(standing()).toHaveLength(1);
    }));

  test('when taken and then dropped are unclear, and can be found in the list', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('chat.scheduleMessage', { kind: 'accept-then-drop' });
      const asked = { channel: 'C01', postAt: inMinutes(slack, 30), ...content('b1') };
      expect(await sender.schedule(asked)).toMatchObject({ kind: 'unclear' });
      const found = await sender.scheduledList();
      expect(found).toMatchObject({ kind: 'ok', value: [{ text: asked.text }] });
    }));

  test('the list is read to its end', () =>
    withSender(
      async ({ slack, sender }) => {
        for (let one = 0; one < 130; one += 1)
          expect(
            await sender.schedule({
              channel: 'C01',
              postAt: inMinutes(slack, 10 + one),
              ...content(`b${one}`),
            }),
          ).toMatchObject({ kind: 'ok' });
        const all = await sender.scheduledList();
        expect(all.kind === 'ok' && all.value.map(({ text }) => text)).toEqual(
          slack.scheduled().map(({ text }) => text),
        );
        expect(slack.callsOf('chat.scheduledMessages.list')).toHaveLength(2);
      },
      { tiers: false },
    ));

  test('a time that will not do says so', () =>
    withSender(async ({ slack, sender }) => {
      const at = (postAt: number) => sender.schedule({ channel: 'C01', postAt, ...content('b') });
      expect(await at(slack.clock.now() - SECOND)).toMatchObject({ kind: 'gone', code: 'time_in_past' });
      expect(await at(inMinutes(slack, 121 * 24 * 60))).toMatchObject({ kind: 'gone', code: 'time_too_far' });
    }));
});
