import { App, HTTPReceiver, LogLevel } from '@slack/bolt';
import { describe, expect, it } from 'vitest';
import { overSocket } from './bolt.ts';
import { button, call, errorOf, field, modal, row, WAYS, withApp, withPeer, words } from './world.ts';

const choice = (value: string, label: string) => ({ text: words(label), value });

/** A form with one of the kinds that a crew meets. */
const FORM = {
  ...modal('Rig'),
  blocks: [
    field('name', 'Name'),
    {
      type: 'input' as const,
      block_id: 'rig',
      label: words('Rig'),
      element: {
        type: 'static_select' as const,
        action_id: 'which',
        options: [choice('r1', 'Rig one'), choice('r2', 'Rig two')],
      },
    },
    {
      type: 'input' as const,
      block_id: 'checks',
      optional: true,
      label: words('Checks'),
      element: {
        type: 'checkboxes' as const,
        action_id: 'done',
        options: [choice('gun', 'Gun'), choice('hose', 'Hose')],
      },
    },
    {
      type: 'input' as const,
      block_id: 'bar',
      optional: true,
      label: words('Bar'),
      element: {
        type: 'number_input' as const,
        action_id: 'number',
        is_decimal_allowed: false,
        max_value: '300',
      },
    },
    row('more', button('One deeper', 'deeper')),
  ],
};

describe('what a person can put into a form', () => {
  it('only what the platform’s own app would take', () =>
    withPeer(async (slack) => {
      await call(slack, 'views.open', { trigger_id: slack.trigger('U01'), view: FORM });
      const fill = (answers: Record<string, string | string[]>) => () => slack.fill('U01', answers);
      expect(fill({ colour: 'red' })).toThrow(
        "0 fields are called 'colour'; the modal has: name/typed, rig/which",
      );
      expect(fill({ rig: 'r9' })).toThrow("does not offer 'r9'; it offers: r1 (Rig one), r2 (Rig two)");
      expect(fill({ bar: 'high' })).toThrow("cannot hold 'high'");
      expect(fill({ bar: '1.5' })).toThrow('whole numbers only');
      expect(fill({ bar: '301' })).toThrow('not from -Infinity to 300');
      expect(fill({ name: 'x'.repeat(3001) })).toThrow('3001 characters are more than 3000');
      slack.fill('U01', { name: 'North', which: 'Rig two', checks: ['gun', 'Hose'], bar: '250' });
      expect(slack.modals('U01')[0]?.typed).toEqual({
        name: { typed: { type: 'plain_text_input', value: 'North' } },
        rig: { which: { type: 'static_select', selected_option: choice('r2', 'Rig two') } },
        checks: {
          done: { type: 'checkboxes', selected_options: [choice('gun', 'Gun'), choice('hose', 'Hose')] },
        },
        bar: { number: { type: 'number_input', value: '250' } },
      });
      await expect(slack.submit('U02')).rejects.toThrow('U02 has no modal open');
    }));

  it('reaches the app as typed, and a press inside brings it along', () => {
    const heard: unknown[] = [];
    const ready = (app: App): void => {
      app.action('deeper', async ({ ack, body, client }) => {
        await ack();
        if (body.type !== 'block_actions') return;
        heard.push(body.view?.state.values.name?.typed?.value);
        await client.views.push({ trigger_id: body.trigger_id, view: { ...FORM, clear_on_close: true } });
      });
      app.view('batch', async ({ ack, view }) => {
        heard.push(view.state.values.rig?.which?.selected_option?.value);
        await ack();
      });
      app.view({ type: 'view_closed', callback_id: 'batch' }, async ({ ack, body }) => {
        heard.push(`closed ${'is_cleared' in body && body.is_cleared}`);
        await ack();
      });
    };
    return withApp(overSocket, ready, async (slack) => {
      await call(slack, 'views.open', { trigger_id: slack.trigger('U01'), view: FORM });
      slack.fill('U01', { name: 'North', rig: 'r1' });
      for (const depth of [2, 3]) {
        await slack.pressIn('U01', 'modal', { actionId: 'deeper' });
        await slack.until(() => slack.modals('U01').length === depth);
      }
      expect(heard).toEqual(['North', null]);
      const stack = slack.modals('U01');
      expect(stack.map((one) => one.previousId)).toEqual([null, stack[0]?.id, stack[1]?.id]);
      await slack.submit('U01', { name: 'South', rig: 'r2' });
      expect(heard.at(-1)).toBe('r2');
      expect((await slack.closeModal('U01')).acked).toBe(true);
      // clear_on_close takes the whole stack, and the app hears of each view.
      expect(heard.slice(-2)).toEqual(['closed true', 'closed true']);
      expect(slack.modals('U01')).toEqual([]);
    });
  });

  it('lets no fourth view onto the stack', () => {
    const refused: unknown[] = [];
    const ready = (app: App): void => {
      app.action('deeper', async ({ ack, body, client }) => {
        await ack();
        if (body.type !== 'block_actions') return;
        await client.views
          .push({ trigger_id: body.trigger_id, view: FORM })
          .catch((error: unknown) => refused.push(error));
      });
    };
    return withApp(overSocket, ready, async (slack) => {
      await call(slack, 'views.open', { trigger_id: slack.trigger('U01'), view: FORM });
      for (const calls of [1, 2, 3]) {
        await slack.pressIn('U01', 'modal', { actionId: 'deeper' });
        await slack.until(() => slack.callsOf('views.push').length === calls);
      }
      await slack.until(() => refused.length === 1);
      expect(refused[0]).toMatchObject({ data: { error: 'push_limit_reached' } });
      expect(slack.modals('U01').length).toBe(3);
    });
  });
});

describe('what a person can press', () => {
  it('only what stands there, once, and for that person', () =>
    withPeer(async (slack) => {
      const twins = [row('a', button('Yes', 'y1', 'same'), button('Yes', 'y2', 'same'))];
      const { body } = await call(slack, 'chat.postEphemeral', {
        channel: 'C01',
        user: 'U01',
        text: 'x',
        blocks: twins,
      });
      const where = { channel: 'C01', ts: String(body.message_ts) };
      await expect(slack.press('U02', { ...where, actionId: 'y1' })).rejects.toThrow('Only U01 can see');
      await expect(slack.press('U03', { ...where, actionId: 'y1' })).rejects.toThrow('U03 is not in C01');
      await expect(slack.press('U01', { ...where, label: 'Yes' })).rejects.toThrow('2 things in message');
      await expect(slack.press('U01', { ...where, label: 'No' })).rejects.toThrow(
        'There is: "Yes" [y1 = same], "Yes"',
      );
      await expect(slack.press('U01', where)).rejects.toThrow('Say what to press');
      expect(await slack.press('U01', { ...where, actionId: 'y2' })).toMatchObject({
        status: 'no_connection',
      });
    }));

  it('an entry of a menu, by its words', () => {
    const chosen: unknown[] = [];
    const ready = (app: App): void => {
      app.action('menu', async ({ ack, action }) => {
        await ack();
        if (action.type === 'overflow') chosen.push(action.selected_option.value);
      });
    };
    return withApp(overSocket, ready, async (slack, { app }) => {
      const menu = {
        type: 'overflow' as const,
        action_id: 'menu',
        options: [choice('a', 'Add'), choice('b', 'Stop')],
      };
      const blocks = [{ type: 'section' as const, text: words('Batch'), accessory: menu }];
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'x', blocks });
      await slack.press('U01', { channel: 'C01', ts, label: 'Stop' });
      expect(chosen).toEqual(['b']);
    });
  });
});

describe.each(WAYS)('what people write, over %s', (_name, way) => {
  it('is heard when new, named, changed and taken away', () => {
    const heard: string[] = [];
    const ready = (app: App): void => {
      app.event('message', async ({ event }) => {
        heard.push(event.subtype ?? `new in ${event.channel_type}`);
      });
      app.event('app_mention', async ({ event }) => {
        heard.push(`named by ${event.user}`);
      });
    };
    return withApp(way, ready, async (slack) => {
      const { ts } = await slack.say('U01', 'C01', `<@${slack.bot.userId}> help`);
      await slack.say('U01', 'C01', 'never mind', { edited: ts });
      await slack.say('U01', 'C01', '', { deleted: ts });
      await slack.say('U01', slack.dm('U01'), 'hi');
      await slack.until(() => heard.length === 5);
      expect(heard).toEqual([
        'new in channel',
        'named by U01',
        'message_changed',
        'message_deleted',
        'new in im',
      ]);
      await expect(slack.say('U02', 'C01', 'x', { edited: ts })).rejects.toThrow('There is no message');
      await expect(slack.say('U03', 'C01', 'x')).rejects.toThrow('U03 is not in C01');
    });
  });
});

describe('the real client', () => {
  it('checks its token at the start, uploads a file, and is told of nothing unsubscribed', () =>
    withPeer(
      async (slack) => {
        const app = new App({
          token: slack.tokens.bot,
          deferInitialization: true,
          receiver: new HTTPReceiver({ signingSecret: slack.signingSecret, logLevel: LogLevel.ERROR }),
          clientOptions: { slackApiUrl: slack.apiUrl },
        });
        await app.init();
        expect(slack.calls.map((one) => one.method)).toEqual(['auth.test']);
        const file = Buffer.from('day,crew\n');
        await app.client.filesUploadV2({
          channel_id: 'C01',
          file,
          filename: 'day.csv',
          initial_comment: 'Record',
        });
        const [message] = slack.messages('C01');
        expect(message).toMatchObject({ text: 'Record', files: [{ name: 'day.csv' }] });
        expect(Buffer.from(slack.file(message?.files[0]?.id ?? '')?.bytes ?? [])).toEqual(file);
        expect(await slack.say('U01', 'C01', 'x')).toMatchObject({ status: 'not_subscribed' });
        expect(await errorOf(slack, 'bots.info')).toBe('ok');
      },
      { events: ['app_home_opened'] },
    ));
});
