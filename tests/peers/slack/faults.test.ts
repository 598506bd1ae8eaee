import { type App, webApi } from '@slack/bolt';
import { describe, expect, it } from 'vitest';
import { overHttp, overSocket } from './bolt.ts';
import type { SlackPeer } from './peer.ts';
import { button, row, withApp, withPeer } from './world.ts';

const nothing = (_app: App): void => {};
const BLOCKS = [row('r', button('Go', 'go'))];
const post = (app: App, text = 'x') => app.client.chat.postMessage({ channel: 'C01', text, blocks: BLOCKS });
const named = (error: unknown): string => (error instanceof Error ? error.constructor.name : String(error));

/** How the platform's own client names each fault: @slack/web-api 8.2.0, errors. */
describe('faults, as the real client meets them', () => {
  it('rate limit: told apart, with the seconds to wait, and nothing posted', () =>
    withApp(overHttp, nothing, async (slack, { app }) => {
      slack.fault('chat.postMessage', { kind: '429', retryAfter: 7 });
      const error = await post(app).catch((one: unknown) => one);
      expect(error).toBeInstanceOf(webApi.WebAPIRateLimitedError);
      expect(error).toMatchObject({ retryAfter: 7 });
      expect(slack.messages('C01')).toEqual([]);
      expect((await post(app)).ok).toBe(true);
    }));

  it('status, refusal and a burst of posts', () =>
    withApp(overHttp, nothing, async (slack, { app }) => {
      slack.fault('chat.postMessage', { kind: 'status', status: 503 });
      expect(await post(app).catch((one: unknown) => one)).toMatchObject({ statusCode: 503 });
      slack.fault('*', { kind: 'error', error: 'fatal_error' });
      expect(await post(app).catch((one: unknown) => one)).toMatchObject({ data: { error: 'fatal_error' } });
      for (let index = 0; index < 3; index += 1) await post(app);
      expect(named(await post(app).catch((one: unknown) => one))).toBe('WebAPIRateLimitedError');
      expect(slack.messages('C01').length).toBe(3);
      expect(slack.faultsLeft()).toBe(0);
    }));

  it('a dropped connection: the same to the app whether it was posted or not', () =>
    withApp(overHttp, nothing, async (slack, { app }) => {
      slack.fault('chat.postMessage', { kind: 'drop' });
      expect(named(await post(app, 'lost').catch((one: unknown) => one))).toBe('WebAPIRequestError');
      expect(slack.messages('C01')).toEqual([]);
      slack.fault('chat.postMessage', { kind: 'accept-then-drop' });
      expect(named(await post(app, 'kept').catch((one: unknown) => one))).toBe('WebAPIRequestError');
      expect(slack.messages('C01').map((one) => one.text)).toEqual(['kept']);
      expect(slack.callsOf('chat.postMessage').map((one) => one.response)).toMatchObject([
        'dropped',
        { ok: true },
      ]);
    }));

  it('a hang: no answer until the caller gives up', () =>
    withPeer(async (slack) => {
      const giveUp = new AbortController();
      slack.fault('chat.postMessage', { kind: 'hang' });
      slack.fault('chat.postMessage', { kind: 'hang', accepted: true });
      const form = (text: string) => ({
        method: 'POST',
        body: new URLSearchParams({ channel: 'C01', text, token: slack.tokens.bot }),
        signal: giveUp.signal,
      });
      const asked = ['one', 'two'].map((text) => fetch(`${slack.apiUrl}chat.postMessage`, form(text)));
      await slack.until(() => slack.callsOf('chat.postMessage').length === 2);
      giveUp.abort();
      const ends = await Promise.allSettled(asked);
      expect(ends.map((one) => one.status)).toEqual(['rejected', 'rejected']);
      // One of the two was taken all the same, and neither caller knows.
      expect(slack.messages('C01').length).toBe(1);
    }));

  it('a dead platform refuses connections, and comes back on the same address', () =>
    withApp(overHttp, nothing, async (slack, { app }) => {
      await slack.down(true);
      const error = await post(app).catch((one: unknown) => one);
      expect(error).toBeInstanceOf(webApi.WebAPIRequestError);
      expect(codes(error)).toContain('ECONNREFUSED');
      expect(slack.calls).toEqual([]);
      await slack.down(false);
      expect((await post(app)).ok).toBe(true);
    }));

  it('a token taken away', () =>
    withApp(overSocket, nothing, async (slack, { app }) => {
      slack.badToken(true);
      expect(await post(app).catch((one: unknown) => one)).toMatchObject({ data: { error: 'invalid_auth' } });
      slack.badToken(false);
      expect((await post(app)).ok).toBe(true);
    }));
});

describe('WebSockets', () => {
  /** What Bolt waits before it connects again is the ping timeout, here 300 ms. */
  const soon = (slack: SlackPeer, ready: (app: App) => void) => overSocket(slack, ready, 300);
  const acking = (app: App): void => {
    app.action('go', async ({ ack }) => {
      await ack();
    });
  };

  it('are recycled, and the app connects again by itself', () =>
    withApp(soon, acking, async (slack, { app }) => {
      const { ts = '' } = await post(app);
      slack.recycleSockets();
      const between = await slack.press('U01', { channel: 'C01', ts, actionId: 'go' });
      expect(between).toMatchObject({ acked: false, status: 'no_connection' });
      await slack.connected(2);
      expect(await slack.press('U01', { channel: 'C01', ts, actionId: 'go' })).toMatchObject({
        acked: true,
        status: 'socket',
      });
      expect(slack.callsOf('apps.connections.open').length).toBeGreaterThanOrEqual(2);
    }));

  it('come back after the platform was away', () =>
    withApp(soon, acking, async (slack, { app }) => {
      const { ts = '' } = await post(app);
      await slack.down(true);
      await slack.down(false);
      await slack.connected(2);
      expect((await slack.press('U01', { channel: 'C01', ts, actionId: 'go' })).acked).toBe(true);
    }));

  it('take a ticket once only', () =>
    withPeer(async (slack) => {
      const response = await fetch(`${slack.apiUrl}apps.connections.open`, {
        method: 'POST',
        headers: { authorization: `Bearer ${slack.tokens.app}` },
      });
      const said: unknown = await response.json();
      const url = typeof said === 'object' && said !== null && 'url' in said ? String(said.url) : '';
      const first = await opening(url);
      expect(first).toBe('hello');
      expect(await opening(url)).toBe('Unexpected server response: 401');
      expect(await opening(url.replace(/ticket=[^&]+/, 'ticket=made-up'))).toBe(
        'Unexpected server response: 401',
      );
    }));
});

/** What the first message says, or why there is none. */
async function opening(url: string): Promise<string> {
  const { WebSocket } = await import('ws');
  const socket = new WebSocket(url);
  return new Promise((resolve) => {
    socket.once('error', (error) => resolve(error.message));
    socket.once('message', (data) => {
      socket.close();
      const said: unknown = JSON.parse(String(data));
      resolve(typeof said === 'object' && said !== null && 'type' in said ? String(said.type) : 'no type');
    });
  });
}

/** Every error code on the way down through the causes. */
function codes(error: unknown): string[] {
  if (!(error instanceof Error)) return [];
  const own = 'code' in error ? [String(error.code)] : [];
  return [...own, ...codes(error.cause)];
}
