import type { App } from '@slack/bolt';
import { describe, expect, it } from 'vitest';
import { button, field, modal, row, START, WAYS, withApp, words } from './world.ts';

/** Who confirmed, told to the message itself; a form that takes only numbers; a command; a Home. */
function yardApp(app: App): void {
  app.action('confirm', async ({ ack, body, client }) => {
    await ack();
    if (body.type !== 'block_actions' || body.channel === undefined || body.message === undefined) return;
    const text = `confirmed by ${body.user.id}`;
    await client.chat.update({ channel: body.channel.id, ts: body.message.ts, text, blocks: [] });
  });
  app.action('ask', async ({ ack, body, client }) => {
    await ack();
    if (body.type !== 'block_actions') return;
    await client.views.open({
      trigger_id: body.trigger_id,
      view: modal('New batch', field('litres', 'Litres')),
    });
  });
  app.view('batch', async ({ ack, view }) => {
    const typed = view.state.values.litres?.typed?.value ?? '';
    if (typed === 'more')
      await ack({ response_action: 'push', view: modal('Second', field('note', 'Note')) });
    else if (typed === 'other')
      await ack({ response_action: 'update', view: modal('Again', field('litres', 'Litres')) });
    else if (typed === 'out') await ack({ response_action: 'clear' });
    else if (typed === 'strange')
      await ack({ response_action: 'errors', errors: { nowhere: 'No such field' } });
    else if (Number.isNaN(Number(typed)))
      await ack({ response_action: 'errors', errors: { litres: 'Give a number' } });
    else await ack();
  });
  app.view({ type: 'view_closed', callback_id: 'batch' }, async ({ ack }) => {
    await ack();
  });
  app.command('/batch', async ({ ack, command, respond }) => {
    await ack(`heard ${command.text}`);
    await respond({ response_type: 'in_channel', text: `${command.user_id} mixes ${command.text}` });
  });
  app.event('app_home_opened', async ({ event, client }) => {
    await client.views.publish({
      user_id: event.user,
      view: { type: 'home', blocks: [row('h', button('Start', 'start'))] },
    });
  });
  app.action('start', async ({ ack, body, client }) => {
    await ack();
    await client.chat.postMessage({ channel: body.user.id, text: 'started' });
  });
  app.message('hello', async ({ message, say }) => {
    await say({ text: 'hello back', thread_ts: message.ts });
  });
}

const ASKED = [row('r1', button('Confirm flush', 'confirm', 'B17'), button('New batch', 'ask'))];

describe.each(WAYS)('a Bolt app over %s', (_name, way) => {
  it('acks a button and changes its message', () =>
    withApp(way, yardApp, async (slack, { app }) => {
      const { ts = '' } = await app.client.chat.postMessage({
        channel: 'C01',
        text: 'Flush?',
        blocks: ASKED,
      });
      const outcome = await slack.press('U02', { channel: 'C01', ts, label: 'Confirm flush' });
      expect(outcome.acked).toBe(true);
      await slack.until(() => slack.messages('C01')[0]?.text === 'confirmed by U02');
      expect(slack.messages('C01')[0]).toMatchObject({
        ts,
        edited: true,
        blocks: [],
        user: slack.bot.userId,
      });
      await expect(slack.press('U02', { channel: 'C01', ts, actionId: 'confirm' })).rejects.toThrow(
        'nothing to press',
      );
    }));

  it('opens a modal, refuses a wrong entry, takes a right one', () =>
    withApp(way, yardApp, async (slack, { app }) => {
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'Work', blocks: ASKED });
      await slack.press('U01', { channel: 'C01', ts, actionId: 'ask' });
      await slack.until(() => slack.modals('U01').length === 1);
      await expect(slack.submit('U01')).rejects.toThrow('"Litres" (litres) is required and empty');
      expect((await slack.submit('U01', { litres: 'ten' })).acked).toBe(true);
      expect(slack.modals('U01')[0]?.errors).toEqual({ litres: 'Give a number' });
      expect(slack.modals('U01')[0]?.typed.litres?.typed).toEqual({ type: 'plain_text_input', value: 'ten' });
      const strange = await slack.submit('U01', { litres: 'strange' });
      expect(strange).toMatchObject({ acked: false, status: 'bad_response' });
      expect(strange.problem).toContain('nowhere');
      expect((await slack.submit('U01', { litres: '10' })).acked).toBe(true);
      expect(slack.modals('U01')).toEqual([]);
    }));

  it('replaces, stacks and clears modals, and tells of a closed one', () =>
    withApp(way, yardApp, async (slack, { app }) => {
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'Work', blocks: ASKED });
      await slack.press('U01', { channel: 'C01', ts, actionId: 'ask' });
      await slack.until(() => slack.modals('U01').length === 1);
      await slack.submit('U01', { litres: 'other' });
      // What was typed stays, as block_id and action_id stayed.
      expect(slack.modals('U01')[0]).toMatchObject({ view: { title: words('Again') } });
      expect(slack.modals('U01')[0]?.typed.litres?.typed).toMatchObject({ value: 'other' });
      await slack.submit('U01', { litres: 'more' });
      expect(slack.modals('U01').map((one) => one.view.title)).toEqual([words('Again'), words('Second')]);
      expect((await slack.closeModal('U01')).acked).toBe(true);
      expect(slack.modals('U01').length).toBe(1);
      await slack.submit('U01', { litres: 'out' });
      expect(slack.modals('U01')).toEqual([]);
    }));

  it('answers a command to one person and through its response_url to all', () =>
    withApp(way, yardApp, async (slack) => {
      expect((await slack.command('U01', '/batch', '10 L', 'C01')).acked).toBe(true);
      await slack.until(() => slack.seenBy('U02', 'C01').length === 1);
      expect(slack.seenBy('U02', 'C01')[0]?.text).toBe('U01 mixes 10 L');
      expect(
        slack
          .seenBy('U01', 'C01')
          .map((one) => one.text)
          .sort(),
      ).toEqual(['U01 mixes 10 L', 'heard 10 L']);
    }));

  it('publishes a Home and takes a press there', () =>
    withApp(way, yardApp, async (slack) => {
      expect((await slack.openHome('U01')).acked).toBe(true);
      await slack.until(() => slack.home('U01') !== null);
      expect((await slack.pressIn('U01', 'home', { label: 'Start' })).acked).toBe(true);
      await slack.until(() => slack.messages(slack.dm('U01')).length === 1);
      expect(slack.messages(slack.dm('U01'))[0]?.text).toBe('started');
    }));

  it('hears what people write, and hears it twice when the event is doubled', () =>
    withApp(way, yardApp, async (slack) => {
      const { ts, acked } = await slack.say('U01', 'C01', 'hello');
      expect(acked).toBe(true);
      await slack.until(() => slack.messages('C01').length === 2);
      expect(slack.messages('C01').at(-1)).toMatchObject({ text: 'hello back', threadTs: ts });
      slack.clock.advance(10_000);
      slack.duplicateEvents(1);
      await slack.say('U02', 'C01', 'hello again');
      await slack.until(() => slack.messages('C01').length === 5);
      expect(slack.messages('C01').filter((one) => one.text === 'hello back').length).toBe(3);
      slack.clock.advance(10_000);
      expect(
        (await slack.press('U01', { channel: 'C01', ts, label: 'x' }).catch((error) => error)).message,
      ).toContain('Nothing');
    }));

  it('says so when the app does not ack', () =>
    withApp(way, yardApp, async (slack, { app }) => {
      const blocks = [row('r', button('Old', 'retired'))];
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'Old', blocks });
      const pressed = slack.press('U01', { channel: 'C01', ts, actionId: 'retired' });
      slack.clock.advance(3000);
      expect(await pressed).toMatchObject({ acked: false, status: 'timeout' });
      expect(slack.clock.now()).toBe(START + 3000);
    }));
});
