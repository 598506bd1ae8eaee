import { describe, expect, it } from 'vitest';
import { call, errorOf, field, modal, withPeer } from './world.ts';

// docs.slack.dev/reference/methods/views.open, views.update, views.push.
describe('views', () => {
  const view = modal('Batch', field('litres', 'Litres'));

  it('takes a trigger once and for three seconds', () =>
    withPeer(async (slack) => {
      const open = (id: string) => errorOf(slack, 'views.open', { trigger_id: id, view });
      const once = slack.trigger('U01');
      expect(await open(once)).toBe('ok');
      expect(await open(once)).toBe('exchanged_trigger_id');
      const late = slack.trigger('U01');
      slack.clock.advance(3001);
      expect(await open(late)).toBe('expired_trigger_id');
      expect(await open('1.2.x')).toBe('invalid_trigger_id');
      const refused = await call(slack, 'views.open', {
        trigger_id: slack.trigger('U01'),
        view: { ...view, title: {} },
      });
      expect(refused.body).toMatchObject({
        error: 'invalid_arguments',
        errors: [{ pointer: '/title/type' }],
      });
    }));

  it('guards updates by hash and the stack by its depth', () =>
    withPeer(async (slack) => {
      await call(slack, 'views.open', {
        trigger_id: slack.trigger('U01'),
        view: { ...view, external_id: 'e1' },
      });
      const [opened] = slack.modals('U01');
      const update = (args: Record<string, unknown>) => errorOf(slack, 'views.update', { view, ...args });
      expect(await update({ view_id: opened?.id, hash: '1.x' })).toBe('hash_conflict');
      expect(await update({ external_id: 'e1', hash: opened?.hash })).toBe('ok');
      expect(await update({ view_id: opened?.id, hash: opened?.hash })).toBe('hash_conflict');
      expect(await update({ view_id: 'V9' })).toBe('not_found');
      expect(await errorOf(slack, 'views.push', { trigger_id: slack.trigger('U01'), view })).toBe(
        'not_found',
      );
    }));

  it('publishes a Home for people only', () =>
    withPeer(async (slack) => {
      const home = { type: 'home', blocks: [] };
      const publish = (args: Record<string, unknown>) =>
        errorOf(slack, 'views.publish', { view: home, ...args });
      expect(await publish({ user_id: 'U01' })).toBe('ok');
      expect(await publish({ user_id: 'U01', hash: 'old' })).toBe('hash_conflict');
      expect(await publish({ user_id: 'U99' })).toBe('user_not_found');
      expect(await publish({ user_id: 'U01', view: modal('Batch') })).toBe('invalid_arguments');
    }));
});

describe('files', () => {
  it('are named, sent, and shown in the channel', () =>
    withPeer(async (slack) => {
      const bytes = Buffer.from('a,b\n1,2\n');
      const args = { filename: 'day.csv', length: bytes.length };
      const { body } = await call(slack, 'files.getUploadURLExternal', args);
      const files = [{ id: body.file_id, title: 'The day' }];
      expect(await errorOf(slack, 'files.completeUploadExternal', { files })).toBe('file_not_found');
      const short = await fetch(String(body.upload_url), { method: 'POST', body: 'a' });
      expect(short.status).toBe(400);
      const sent = await fetch(String(body.upload_url), { method: 'POST', body: bytes });
      expect(await sent.text()).toBe('OK - 8');
      const done = { files, channel_id: 'C01', initial_comment: 'The record' };
      expect(await errorOf(slack, 'files.completeUploadExternal', done)).toBe('ok');
      expect(slack.messages('C01')[0]).toMatchObject({
        text: 'The record',
        files: [{ name: 'day.csv', title: 'The day' }],
      });
      expect(Buffer.from(slack.file(String(body.file_id))?.bytes ?? []).toString()).toBe('a,b\n1,2\n');
      expect(await errorOf(slack, 'files.completeUploadExternal', done)).toBe('file_not_found');
    }));
});
