import { describe, expect, test } from 'vitest';
import { linkTo, MOST_BODY } from '../../adapters/teams/link.ts';
import { ANA } from '../peers/teams/world.ts';
import { keptLog, withLink } from './link-helpers.ts';

describe('the door for Teams', () => {
  // Statuses: RFC 9110 section 15.5.
  test.each([
    ['another address', 'POST', '/', '{}', 404],
    ['the address of something below', 'POST', '/api/messages/x', '{}', 404],
    ['a look', 'GET', '/api/messages', undefined, 405],
    ['what is no JSON', 'POST', '/api/messages', 'activity', 400],
    ['what is no object', 'POST', '/api/messages', '[1]', 400],
    ['nothing', 'POST', '/api/messages', '', 400],
    ['an object without a token of Teams', 'POST', '/api/messages', '{}', 401],
  ])('%s', (_what, method, path, body, status) =>
    withLink(async ({ url, heard }) => {
      const response = await fetch(new URL(path, url), {
        method,
        headers: { authorization: 'Bearer x.y.z' },
        ...(body === undefined ? {} : { body }),
      });
      expect([response.status, await response.text(), heard]).toEqual([status, '', []]);
      if (status === 405) expect(response.headers.get('allow')).toBe('POST');
    }),
  );

  test('nothing is read without a token', () =>
    withLink(async ({ url }) => {
      expect((await fetch(url, { method: 'POST', body: '{' })).status).toBe(401);
    }));

  test('more than it takes, announced or not', () =>
    withLink(async ({ url }) => {
      const headers = { authorization: 'Bearer x.y.z' };
      const body = new Uint8Array(MOST_BODY + 1);
      expect((await fetch(url, { method: 'POST', headers, body })).status).toBe(413);
      const stream = new ReadableStream({
        start(to) {
          to.enqueue(body);
          to.close();
        },
      });
      const streamed = { method: 'POST', headers, body: stream, duplex: 'half' } as const;
      expect((await fetch(url, streamed)).status).toBe(413);
    }));

  test('what is answered comes back', () =>
    withLink(
      async ({ teams }) => {
        expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 202, body: { a: 1 } });
      },
      async () => ({ status: 202, body: { a: 1 } }),
    ));

  test('what fails is answered with 500 and logged, and no word of it goes out', () =>
    withLink(
      async ({ teams, logged }) => {
        expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 500, body: {} });
        expect(logged.at(-1)).toMatch(/no such drawer.*could not be worked out/);
      },
      async () => {
        throw new Error('no such drawer');
      },
    ));

  test('it closes and opens again, and says no when its port is taken', () =>
    withLink(async ({ link, teams, heard, auth }) => {
      const second = linkTo(auth, link.port() ?? 0, keptLog().log, async () => ({ status: 200, body: null }));
      await expect(second.open()).rejects.toThrow('EADDRINUSE');
      await link.close();
      expect(link.port()).toBeNull();
      expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 'refused' });
      await link.open();
      await link.open();
      expect(link.port()).not.toBeNull();
      expect(heard).toEqual([]);
    }));
});
