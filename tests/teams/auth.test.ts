import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { withoutConsole } from '../../adapters/teams/quiet.ts';
import type { Forgery } from '../peers/teams/peer.ts';
import { ANA } from '../peers/teams/world.ts';
import { withLink } from './link-helpers.ts';

// learn.microsoft.com/azure/bot-service/rest-api/bot-framework-rest-connector-authentication.
const FORGERIES: readonly Forgery[] = [
  'unsigned',
  'not-bearer',
  'garbage',
  'alg-none',
  'HS256',
  'wrong-key',
  'unknown-key',
  'expired',
  'not-yet-valid',
  'wrong-audience',
  'wrong-issuer',
  'wrong-service-url',
  'no-service-url',
  'missing-endorsement',
];

const printed = vi.fn();
beforeEach(() => {
  printed.mockReset();
  for (const way of ['error', 'warn', 'log'] as const) vi.spyOn(console, way).mockImplementation(printed);
});
afterEach(() => {
  vi.restoreAllMocks();
});

describe('a forged request', () => {
  test.each(FORGERIES)(
    '%s: 401, nothing runs, nothing is printed, and the next true one is heard',
    (forgery) =>
      withLink(async ({ teams, heard, logged, config }) => {
        teams.forgeNext(forgery);
        expect(await teams.say(ANA, teams.chat(ANA), 'forged')).toMatchObject({ status: 401, body: {} });
        expect(heard).toEqual([]);
        expect(await teams.say(ANA, teams.chat(ANA), 'true')).toMatchObject({ status: 200 });
        expect(heard).toMatchObject([{ text: 'true', serviceUrl: teams.serviceUrl() }]);
        expect(printed).not.toHaveBeenCalled();
        const lines = logged.join('\n');
        expect(lines).not.toContain(config.appSecret);
        expect(lines).not.toMatch(/eyJ|BEGIN|Bearer/);
      }),
  );

  test('is counted in the log, without its token', () =>
    withLink(async ({ teams, logged }) => {
      for (const forgery of ['wrong-key', 'expired'] as const) {
        teams.forgeNext(forgery);
        await teams.say(ANA, teams.chat(ANA), 'forged');
      }
      const lines = logged.filter((line) => line.includes('turned away'));
      expect(lines).toEqual([
        expect.stringContaining('"refusals":1,"kind":"forged","reason":"JsonWebTokenError"'),
        expect.stringContaining('"refusals":2,"kind":"forged","reason":"AuthenticationError"'),
      ]);
    }));

  test('fills no log', () =>
    withLink(async ({ auth, logged }) => {
      for (let at = 0; at < 1000; at += 1) await auth.check({}, 'Bearer x');
      expect(logged.filter((line) => line.includes('turned away'))).toHaveLength(11);
    }));
});

describe('a genuine request', () => {
  const send = async (url: string, token: string, activity: object) =>
    (
      await fetch(url, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: token },
        body: JSON.stringify(activity),
      })
    ).status;

  test('of another organisation or another kind of chat is turned away', () =>
    withLink(async ({ teams, auth, heard, url }) => {
      const tokens: string[] = [];
      const { check } = auth;
      vi.spyOn(auth, 'check').mockImplementation((activity, header) => {
        tokens.push(header);
        return check(activity, header);
      });
      await teams.say(ANA, teams.chat(ANA), 'true');
      const [token = ''] = tokens;
      const [activity] = heard;
      expect(await send(url, token, { ...activity })).toBe(200);
      // In a web chat a person says themselves who they are.
      expect(await send(url, token, { ...activity, channelId: 'webchat' })).toBe(401);
      const conversation = { id: 'a:1x', tenantId: '00000000-0000-4000-8000-00000000dead' };
      expect(await send(url, token, { ...activity, conversation })).toBe(403);
      const channelData = { tenant: { id: '00000000-0000-4000-8000-00000000dead' } };
      expect(await send(url, token, { ...activity, channelData })).toBe(403);
      expect(heard).toHaveLength(2);
    }));

  test('is not heard while the keys of Teams cannot be had, and is once they can', () =>
    withLink(async ({ teams, heard }) => {
      teams.fault('openid', { kind: 'status', status: 503 });
      expect(await teams.say(ANA, teams.chat(ANA), 'one')).toMatchObject({ status: 401 });
      expect(await teams.say(ANA, teams.chat(ANA), 'two')).toMatchObject({ status: 200 });
      expect(heard).toMatchObject([{ text: 'two' }]);
    }));
});

test('only what the work prints is left out, and the console is as before afterwards', async () => {
  const out = globalThis.console;
  const before = out.error;
  let go = (): void => {};
  const waits = new Promise<void>((resolve) => {
    go = resolve;
  });
  const work = withoutConsole(async () => {
    out.error('a key');
    await waits;
    out.error('a key again');
    return 'done';
  });
  out.error('of somebody else');
  go();
  expect(await work).toBe('done');
  expect(printed.mock.calls).toEqual([['of somebody else']]);
  expect(out.error).toBe(before);
});
