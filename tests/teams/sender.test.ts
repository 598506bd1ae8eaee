import { describe, expect, test } from 'vitest';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { PostedMessage } from '../../adapters/teams/sender-post.ts';
import { ANA, BEN, CLEO, DOCK, TEAM } from '../peers/teams/world.ts';
import { a, content, withSender } from './sender-helpers.ts';

const SECOND = 1000;
const flush = (marker: string) => expect.stringContaining(`Rig 1: flush, ${marker}`);

function sent(answer: Sent<PostedMessage>): PostedMessage {
  if (answer.kind !== 'ok') throw new Error(`It was not sent: ${JSON.stringify(answer)}`);
  return answer.value;
}

describe('a message', () => {
  test('in a channel opens a thread whose id is known, is answered in, changed and taken away', () =>
    withSender(async ({ teams, sender, standing }) => {
      await teams.say(BEN, DOCK, 'hello');
      const first = sent(await sender.post({ ...a('d1'), alert: true }));
      expect(first.thread).toBe(first.id);
      const answer = sent(await sender.post({ ...a('d2'), under: first.id }));
      expect(answer).toEqual({ conversation: DOCK, id: expect.any(String), thread: first.id });
      expect(standing()).toEqual([flush('d1'), flush('d2')]);
      const stood = teams.messages(DOCK).filter(({ from }) => from === teams.bot.id);
      expect(stood.map(({ id, thread }) => [id, thread])).toEqual([
        [first.id, first.id],
        [answer.id, first.id],
      ]);
      expect(stood[0]?.activity.channelData).toEqual({ notification: { alert: true } });
      expect(await sender.update({ ...answer, ...content('Flushed') })).toEqual({
        kind: 'ok',
        value: answer,
      });
      expect(standing()).toEqual([flush('d1'), expect.stringContaining('Flushed')]);
      expect(await sender.delete(first)).toEqual({ kind: 'ok', value: null });
      expect(standing()).toHaveLength(1);
    }));

  test('in somebody’s own chat and in a group chat has no thread', () =>
    withSender(async ({ teams, sender }) => {
      const chat = teams.chat(ANA);
      await teams.say(ANA, chat, 'hello');
      const value = sent(await sender.post(a('d1', chat)));
      expect(value).toEqual({ conversation: chat, id: teams.messages(chat).at(-1)?.id, thread: null });
      expect(teams.callsOf('createConversation')).toEqual([]);
    }));

  test('waits for nothing when Teams never said where to write, and says what to do', () =>
    withSender(async ({ sender, calls }) => {
      expect(await sender.reachable(DOCK)).toBe(false);
      expect(await sender.post(a('d1'))).toMatchObject({
        kind: 'gone',
        code: 'NotHeardFrom',
        why: expect.stringMatching(/add the app to the team/),
      });
      expect(calls()).toBe(0);
    }));

  test('goes out after a restart, to a channel nobody has written in, once anything was heard', () =>
    withSender(async ({ teams, restarted, standing }) => {
      await teams.installs(BEN, TEAM);
      expect(sent(await restarted().post(a('d1'))).conversation).toBe(DOCK);
      expect(standing()).toEqual([flush('d1')]);
    }));
});

describe('said once', () => {
  test('what is known to stand is not said again, also after a restart', () =>
    withSender(async ({ teams, sender, restarted, standing }) => {
      await teams.say(BEN, DOCK, 'hello');
      const value = sent(await sender.post(a('d1')));
      expect(await sender.stands('d1')).toEqual(value);
      expect(await restarted().post({ ...a('d1'), lookFirst: true })).toEqual({ kind: 'ok', value });
      expect(await sender.stands('d2')).toBeNull();
      expect(standing()).toHaveLength(1);
    }));

  test.each([
    ['dropped', { kind: 'accept-then-drop' }],
    ['broken off', { kind: 'accept-then-status', status: 502 }],
    ['never answered', { kind: 'hang', accepted: true }],
  ] as const)('an answer that was %s: one post, unclear, and nobody takes it for said', (_, fault) =>
    withSender(async ({ teams, sender, standing, calls }) => {
      await teams.say(BEN, DOCK, 'hello');
      teams.fault('*', fault);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'unclear' });
      expect(calls()).toBe(1);
      expect(await sender.stands('d1')).toBeNull();
      expect(sent(await sender.post({ ...a('d1'), lookFirst: true })).id).toEqual(expect.any(String));
      expect(standing()).toEqual([flush('d1'), flush('d1')]);
    }),
  );

  test('where old messages stand is forgotten when told to', () =>
    withSender(async ({ teams, sender }) => {
      await teams.say(BEN, DOCK, 'hello');
      sent(await sender.post(a('d1')));
      expect([await sender.forgetSent(0), await sender.forgetSent(1)]).toEqual([0, 1]);
      expect(await sender.stands('d1')).toBeNull();
      expect(await sender.reachable(DOCK)).toBe(true);
    }));
});

describe('pace', () => {
  test('a wait asked for holds that conversation only, and is obeyed', () =>
    withSender(async ({ teams, sender, calls }) => {
      const chat = teams.chat(ANA);
      await teams.say(BEN, DOCK, 'hello');
      await teams.say(ANA, chat, 'hello');
      teams.fault('*', { kind: '429', retryAfter: 7 });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry', afterMs: 7000 });
      expect(await sender.post(a('d1'))).toEqual({ kind: 'later', afterMs: 7000 });
      expect(calls()).toBe(1);
      expect(await sender.post(a('d2', chat))).toMatchObject({ kind: 'ok' });
      teams.clock.advance(7 * SECOND);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
    }));

  /** The peer counts by the published table and would answer 429. */
  test('sixty people’s answers in a chat never meet the platform’s own limit', () =>
    withSender(async ({ teams, sender, standing }) => {
      const chat = teams.chat(ANA);
      await teams.say(ANA, chat, 'hello');
      for (let at = 0; at < 60; at += 1) {
        let answer = await sender.post(a(`m${at}`, chat));
        while (answer.kind === 'later') {
          teams.clock.advance(answer.afterMs);
          answer = await sender.post(a(`m${at}`, chat));
        }
        expect(answer.kind).toBe('ok');
      }
      expect(standing(chat)).toHaveLength(60);
      expect(teams.calls.filter(({ status }) => status === 429)).toEqual([]);
    }));

  test('updates of one message leave room for others', () =>
    withSender(async ({ teams, sender }) => {
      await teams.say(BEN, DOCK, 'hello');
      const value = sent(await sender.post(a('d1')));
      expect(await sender.update({ ...value, ...content('5 of 7') })).toMatchObject({ kind: 'ok' });
      expect(await sender.update({ ...value, ...content('6 of 7') })).toEqual({
        kind: 'later',
        afterMs: 2000,
      });
      expect(await sender.post(a('d2'))).toMatchObject({ kind: 'ok' });
    }));
});

describe('when Teams changes', () => {
  test('a moved service is found again: the newest address is tried next, and nobody has to write in the channel', () =>
    withSender(async ({ teams, sender, said, standing }) => {
      await teams.say(BEN, DOCK, 'hello');
      teams.moveService('amer');
      expect(await sender.post(a('d1'))).toMatchObject({
        kind: 'retry',
        why: expect.stringContaining('404'),
      });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry' });
      await teams.say(ANA, teams.chat(ANA), 'hello');
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry' });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
      expect(standing()).toEqual([flush('d1')]);
      expect(said.filter((line) => line.includes('Teams has moved'))).toHaveLength(3);
    }));

  test('an app taken out of the team or blocked is told with what to do', () =>
    withSender(async ({ teams, sender }) => {
      const chat = teams.chat(ANA);
      await teams.say(BEN, DOCK, 'hello');
      await teams.say(ANA, chat, 'hello');
      await teams.uninstalls(BEN, TEAM);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'gone', code: 'BotNotInConversationRoster' });
      teams.block(ANA, true);
      expect(await sender.post(a('d2', chat))).toMatchObject({
        kind: 'gone',
        code: 'ConversationBlockedByUser',
      });
      teams.block(ANA, false);
      expect(await sender.post(a('d2', chat))).toMatchObject({ kind: 'ok' });
      await teams.installs(BEN, TEAM);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
    }));

  test('Teams away refuses the connection: nothing was shown', () =>
    withSender(async ({ teams, sender }) => {
      await teams.say(BEN, DOCK, 'hello');
      await sender.post(a('d0'));
      await teams.down(true);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry' });
      await teams.down(false);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
    }));
});

describe('a personal chat', () => {
  test('is opened for somebody who never wrote, once, also for two at the same time and after a restart', () =>
    withSender(async ({ teams, sender, restarted, standing }) => {
      await teams.say(BEN, DOCK, 'hello');
      const chat = teams.chat(ANA);
      const both = await Promise.all([sender.openPersonal('aad-ana'), sender.openPersonal('aad-ana')]);
      expect(both).toEqual([
        { kind: 'ok', value: chat },
        { kind: 'ok', value: chat },
      ]);
      expect(await restarted().openPersonal('aad-ana')).toEqual({ kind: 'ok', value: chat });
      expect([teams.callsOf('getMember').length, teams.callsOf('createConversation').length]).toEqual([1, 1]);
      expect(sent(await sender.post(a('d1', chat))).thread).toBeNull();
      expect(standing(chat)).toEqual([flush('d1')]);
    }));

  test('of somebody who is not in the team is refused in words, and costs nobody else anything', () =>
    withSender(async ({ teams, sender, restarted }) => {
      await teams.say(BEN, DOCK, 'hello');
      expect(await sender.openPersonal('aad-cleo')).toMatchObject({
        kind: 'gone',
        code: 'MemberNotFoundInConversation',
        why: expect.stringMatching(/site pack/),
      });
      // Known by name, and the app is not there.
      expect(await sender.openPersonal(CLEO)).toMatchObject({
        kind: 'gone',
        code: 'BotNotInConversationRoster',
      });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'ok' });
      expect(await restarted({ roster: null }).openPersonal('aad-cleo')).toMatchObject({
        kind: 'gone',
        code: 'NotHeardFrom',
      });
    }));

  test('whose answer was lost is tried again', () =>
    withSender(async ({ teams, sender }) => {
      await teams.say(ANA, DOCK, 'hello');
      teams.fault('createConversation', { kind: 'accept-then-drop' });
      expect(await sender.openPersonal('aad-ana')).toMatchObject({ kind: 'retry' });
      expect(await sender.openPersonal('aad-ana')).toEqual({ kind: 'ok', value: teams.chat(ANA) });
    }));
});
