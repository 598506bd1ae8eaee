import type { App } from '@slack/bolt';
import { describe, expect, it } from 'vitest';
import { overHttp } from './bolt.ts';
import { button, row, withApp, withPeer } from './world.ts';

type Heard = { events: { id: string; retry: number | undefined }[]; clicks: string[] };

function listening(heard: Heard, failing = { times: 0 }): (app: App) => void {
  return (app) => {
    app.event('member_joined_channel', async ({ body, context }) => {
      heard.events.push({ id: body.event_id, retry: context.retryNum });
    });
    app.action('go', async ({ ack, action }) => {
      if (failing.times > 0) {
        failing.times -= 1;
        throw new Error('meant to fail');
      }
      await ack();
      heard.clicks.push(action.type);
    });
  };
}

const BLOCKS = [row('r', button('Go', 'go'))];

// docs.slack.dev/authentication/verifying-requests-from-slack; what Bolt 5.1.0 does was measured.
describe('requests over HTTP', () => {
  it('are signed, and Bolt refuses what is stale, forged or unsigned', () => {
    const heard: Heard = { events: [], clicks: [] };
    return withApp(overHttp, listening(heard), async (slack, { app }) => {
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'x', blocks: BLOCKS });
      const press = () => slack.press('U01', { channel: 'C01', ts, actionId: 'go' });
      expect(await press()).toMatchObject({ acked: true, status: 200 });
      for (const wrong of ['stale', 'forged', 'unsigned'] as const) {
        slack.signNext(wrong);
        expect(await press()).toMatchObject({ acked: false, status: 401 });
      }
      expect(heard.clicks.length).toBe(1);
      // Bolt looks only for requests that are too old: an app that minds the future looks for itself.
      slack.signNext('future');
      expect(await press()).toMatchObject({ acked: true, status: 200 });
    });
  });

  it('can be replayed to the byte, which Bolt takes again', () => {
    const heard: Heard = { events: [], clicks: [] };
    return withApp(overHttp, listening(heard), async (slack) => {
      slack.botIn('C01', true);
      expect((await slack.joins('U03', 'C01')).acked).toBe(true);
      expect(await slack.replayLast()).toMatchObject({ acked: true, status: 200 });
      await slack.until(() => heard.events.length === 2);
      expect(new Set(heard.events.map((one) => one.id)).size).toBe(1);
    });
  });

  it('tell of events that were not acked at once, after a minute and after five', () =>
    withPeer(async (slack) => {
      const seen: (string | null)[] = [];
      const { createServer } = await import('node:http');
      const server = createServer((request, response) => {
        const { 'x-slack-retry-num': num = null, 'x-slack-retry-reason': reason } = request.headers;
        seen.push(num === null ? null : `${String(num)} ${String(reason)}`);
        response.statusCode = 500;
        response.end();
      });
      await new Promise<void>((resolve) => {
        server.listen(0, '127.0.0.1', resolve);
      });
      const address = server.address();
      try {
        slack.httpTo(
          `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}/`,
        );
        expect(await slack.joins('U03', 'C01')).toMatchObject({ acked: false, status: 500 });
        await slack.settled();
        expect(seen).toEqual([null, '1 http_error']);
        slack.clock.advance(60_000);
        await slack.settled();
        slack.clock.advance(299_999);
        await slack.settled();
        expect(seen.length).toBe(3);
        slack.clock.advance(1);
        await slack.settled();
        slack.clock.advance(3_600_000);
        await slack.settled();
        expect(seen).toEqual([null, '1 http_error', '2 http_error', '3 http_error']);
      } finally {
        server.close();
      }
    }));

  it('tell of a click once, however it ends', () => {
    const heard: Heard = { events: [], clicks: [] };
    const failing = { times: 1 };
    return withApp(overHttp, listening(heard, failing), async (slack, { app, log }) => {
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'x', blocks: BLOCKS });
      expect(await slack.press('U01', { channel: 'C01', ts, actionId: 'go' })).toMatchObject({
        acked: false,
        status: 500,
      });
      slack.clock.advance(3_600_000);
      await slack.settled();
      expect(heard.clicks).toEqual([]);
      expect(log.join('\n')).toContain('meant to fail');
    });
  });

  it('go nowhere when no app is there', () =>
    withPeer(async (slack) => {
      expect(await slack.command('U01', '/batch', '', 'C01')).toMatchObject({
        acked: false,
        status: 'no_connection',
      });
      expect(await slack.say('U01', 'C02', 'x')).toMatchObject({ acked: false, status: 'not_subscribed' });
      slack.httpTo('http://127.0.0.1:9/');
      expect(await slack.command('U01', '/batch', '', 'C01')).toMatchObject({
        acked: false,
        status: 'refused',
      });
    }));
});

// docs.slack.dev/interactivity/handling-user-interaction: 5 uses within 30 minutes.
describe('a response_url', () => {
  const said: string[] = [];
  const ready = (app: App): void => {
    app.action('go', async ({ ack, body }) => {
      await ack();
      if (body.type === 'block_actions') said.push(body.response_url);
    });
  };
  const use = async (url: string, body: object): Promise<number> =>
    (await fetch(url, { method: 'POST', body: JSON.stringify(body) })).status;

  it('works five times and for half an hour', () =>
    withApp(overHttp, ready, async (slack, { app }) => {
      said.length = 0;
      const { ts = '' } = await app.client.chat.postMessage({ channel: 'C01', text: 'x', blocks: BLOCKS });
      const press = () => slack.press('U01', { channel: 'C01', ts, actionId: 'go' });
      await press();
      await press();
      await slack.until(() => said.length === 2);
      const [first = '', second = ''] = said;
      expect(await use(first, { text: 'only you' })).toBe(200);
      expect(slack.seenBy('U02', 'C01').length).toBe(1);
      expect(await use(first, { replace_original: true, text: 'done' })).toBe(200);
      expect(slack.messages('C01')[0]).toMatchObject({ text: 'done', blocks: [] });
      expect(await use(first, {})).toBe(400);
      expect(await use(first, { blocks: [{ type: 'banner' }] })).toBe(400);
      expect(await use(first, { delete_original: true })).toBe(200);
      expect(await use(first, { text: 'six' })).toBe(404);
      slack.clock.advance(30 * 60_000 + 1);
      expect(await use(second, { text: 'late' })).toBe(404);
      expect(slack.seenBy('U01', 'C01').map((one) => one.text)).toEqual(['only you']);
    }));
});
