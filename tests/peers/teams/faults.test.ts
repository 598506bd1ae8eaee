import { describe, expect, it } from 'vitest';
import { fetchToken } from './bot.ts';
import type { ErrorCode, Fault, TeamsPeer } from './peer.ts';
import { ANA, at, CREW, call, silent, withBot, withPeer, words } from './world.ts';

const post = (teams: TeamsPeer, text = 'x', token?: string) =>
  call(teams, 'POST', at(CREW), words(text), token);
const texts = (teams: TeamsPeer): string[] => teams.messages(CREW).map((one) => one.text);

describe('faults', () => {
  it('answer once with what was asked, and do nothing', () =>
    withPeer(async (teams) => {
      const plain: [Fault, number, string | null][] = [
        [{ kind: '429', retryAfter: 7 }, 429, '7'],
        [{ kind: '429' }, 429, null],
        [{ kind: 'status', status: 412 }, 412, null],
        [{ kind: 'status', status: 500 }, 500, null],
        [{ kind: 'status', status: 503 }, 503, null],
      ];
      for (const [fault, status, retryAfter] of plain) {
        teams.fault('sendToConversation', fault);
        expect(await post(teams)).toMatchObject({ status, retryAfter });
      }
      const named: [ErrorCode, number][] = [
        ['BotNotInConversationRoster', 403],
        ['BotDisabledByAdmin', 403],
        ['ConversationBlockedByUser', 403],
        ['MessageWritesBlocked', 403],
        ['ActivityNotFoundInConversation', 404],
        ['ConversationNotFound', 404],
      ];
      for (const [code, status] of named) {
        teams.fault('sendToConversation', { kind: 'error', code });
        expect(await post(teams)).toMatchObject({ status, body: { error: { code } } });
      }
      expect([texts(teams), teams.faultsLeft()]).toEqual([[], 0]);
      expect((await post(teams)).status).toBe(201);
    }));

  it('lose the answer, with the message posted or not', () =>
    withPeer(async (teams) => {
      const { token } = await fetchToken(teams);
      teams.fault('sendToConversation', { kind: 'drop' });
      await expect(post(teams, 'lost', token)).rejects.toThrow('fetch failed');
      expect(texts(teams)).toEqual([]);
      teams.fault('*', { kind: 'accept-then-drop' });
      await expect(post(teams, 'kept', token)).rejects.toThrow('fetch failed');
      teams.fault('*', { kind: 'accept-then-status', status: 503 });
      expect((await post(teams, 'kept too', token)).status).toBe(503);
      expect(texts(teams)).toEqual(['kept', 'kept too']);
      const sends = teams.callsOf('sendToConversation').map((one) => one.status);
      expect(sends).toEqual(['dropped', 201, 503]);
    }));

  it('hang until the caller gives up', () =>
    withPeer(async (teams) => {
      const { token } = await fetchToken(teams);
      const giveUp = new AbortController();
      teams.fault('sendToConversation', { kind: 'hang' });
      teams.fault('sendToConversation', { kind: 'hang', accepted: true });
      const asked = ['one', 'two'].map((text) =>
        fetch(`${teams.serviceUrl()}${at(CREW).slice(1)}`, {
          method: 'POST',
          headers: { authorization: `Bearer ${token}` },
          body: JSON.stringify(words(text)),
          signal: giveUp.signal,
        }),
      );
      await teams.until(() => teams.callsOf('sendToConversation').length === 2);
      giveUp.abort();
      const ends = await Promise.allSettled(asked);
      expect(ends.map((one) => one.status)).toEqual(['rejected', 'rejected']);
      // One of the two was taken all the same, and neither caller knows.
      expect(teams.messages(CREW).length).toBe(1);
    }));

  it('a dead platform refuses connections, and comes back on the same address', () =>
    withPeer(async (teams) => {
      const { token } = await fetchToken(teams);
      await teams.down(true);
      await expect(post(teams, 'x', token)).rejects.toThrow('fetch failed');
      await teams.down(false);
      expect((await post(teams, 'x', token)).status).toBe(201);
      expect(teams.callsOf('sendToConversation').length).toBe(1);
    }));
});

// What the connector of botbuilder 4.23.3 makes of an answer: measured. 429 without Retry-After, 412, 403: one post.
describe('faults, as the connector of botbuilder meets them', () => {
  const FAULTS: [string, Fault, number][] = [
    ['429 without a time', { kind: '429' }, 429],
    ['412', { kind: 'status', status: 412 }, 412],
    ['403', { kind: 'error', code: 'BotDisabledByAdmin' }, 403],
    ['404', { kind: 'error', code: 'ConversationNotFound' }, 404],
  ];
  it.each(FAULTS)('%s: told after one post', (_name, fault, statusCode) =>
    withBot(silent, async (teams, { adapter }) => {
      const { appId, tenantId, id, name } = teams.bot;
      const reference = {
        bot: { id, name },
        user: { id: ANA, name: 'Ana' },
        channelId: 'msteams',
        serviceUrl: teams.serviceUrl(),
        conversation: { id: CREW, tenantId, isGroup: true, conversationType: 'groupChat', name: '' },
      };
      const send = () =>
        adapter.continueConversationAsync(appId, reference, async (context) => {
          await context.sendActivity('reminder');
        });
      // '*' leaves the token alone, so the second call gets as far as the message.
      teams.fault('*', fault);
      teams.fault('token', { kind: 'status', status: 503 });
      await expect(send()).rejects.toThrow('No token: 503');
      await expect(send()).rejects.toMatchObject({ statusCode });
      const posts = () => teams.calls.filter((one) => /^(sendTo|replyTo)/.test(one.operation)).length;
      expect([posts(), texts(teams)]).toEqual([1, []]);
      await send();
      expect(texts(teams)).toEqual(['reminder']);
    }),
  );
});
