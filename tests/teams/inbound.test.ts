import { describe, expect, test } from 'vitest';
import { type Inbound, readInbound } from '../../adapters/teams/inbound.ts';
import { encodeAction } from '../../src/message/action.ts';
import { ANA, attached, BEN, card, DOCK, execute, posted, TEAM } from '../peers/teams/world.ts';
import { type Linked, withLink } from './link-helpers.ts';

const action = { kind: 'show', page: 'briefing' } as const;
const value = encodeAction(action);
const form = {
  form: JSON.stringify({ form: 'pause', about: {}, shift: null, fields: [{ name: 'note' }] }),
};

/** What is read of everything that came in. */
const read = ({ heard }: Linked): readonly Inbound[] => heard.map(readInbound);
const ids = {
  pressId: expect.stringMatching(/^[0-9a-f]{16}$/),
  pressKey: expect.stringMatching(/^[0-9a-f]{16}$/),
};

async function withCard(test: (linked: Linked, id: string) => Promise<void>): Promise<void> {
  await withLink(async (linked) => {
    const shown = card(
      'Briefing',
      execute('Look', 'show', { action: value, of: 'abcd1234' }),
      execute('Old', 'show', { action: value.slice(0, -3) }),
      { type: 'Action.Submit', title: 'Ask', data: { msteams: { type: 'task/fetch' }, action: value } },
    );
    const refresh = { action: { type: 'Action.Execute', verb: 'show', data: { action: value } } };
    const id = await posted(linked.teams, DOCK, attached({ ...shown, refresh }));
    await test(linked, id);
  });
}

describe('a press', () => {
  test('is read with who it was and where; an old client’s is the same but for its answer', () =>
    withCard(async (linked, id) => {
      const { teams } = linked;
      await teams.press(ANA, { conversation: DOCK, activityId: id, title: 'Look' });
      await teams.press(ANA, { conversation: DOCK, activityId: id, title: 'Look', oldClient: true });
      const press = {
        kind: 'press',
        member: 'aad-ana',
        action,
        of: 'abcd1234',
        by: 'press',
        place: {
          conversation: DOCK,
          kind: 'channel',
          thread: id,
          messageId: id,
          team: TEAM,
          serviceUrl: teams.serviceUrl(),
        },
        ...ids,
      };
      expect(read(linked)).toEqual([
        { ...press, answer: 'card' },
        { ...press, answer: 'message' },
      ]);
    }));

  test('that opens a dialog, and a card coming into sight', () =>
    withCard(async (linked, id) => {
      const where = { conversation: DOCK, activityId: id };
      await linked.teams.press(BEN, { ...where, title: 'Ask' });
      await linked.teams.looks(BEN, where);
      expect(read(linked)).toMatchObject([
        { kind: 'press', member: 'aad-ben', action, by: 'press', answer: 'dialog' },
        { kind: 'press', member: 'aad-ben', action, by: 'refresh', answer: 'card' },
      ]);
    }));

  test('of a button that is not ours has no action', () =>
    withCard(async (linked, id) => {
      await linked.teams.press(ANA, { conversation: DOCK, activityId: id, title: 'Old' });
      expect(read(linked)).toMatchObject([{ kind: 'press', action: null }]);
    }));

  // MicrosoftDocs/msteams-docs, issue 6084: the same id comes again with another time.
  test('is the same when it is delivered again, and another when it is pressed again', () =>
    withCard(async (linked, id) => {
      const { teams, heard } = linked;
      const look = { conversation: DOCK, activityId: id, title: 'Look' };
      teams.duplicate(1);
      await teams.press(ANA, look);
      teams.duplicate(0);
      const [first, again] = heard;
      await teams.press(ANA, look);
      await teams.press(BEN, look);
      const late = { ...first, timestamp: '2026-03-09T07:00:00Z', localTimestamp: '2026-03-09T07:00:00Z' };
      const pressed = [first, again, late, ...heard.slice(2)].map(readInbound);
      const of = (what: 'pressId' | 'pressKey') =>
        pressed.map((one) => {
          if (one.kind !== 'press') throw new Error(`It was read as ${one.kind}.`);
          return one[what];
        });
      const [a, , , b, c] = of('pressId');
      expect(of('pressId')).toEqual([a, a, a, b, c]);
      expect(new Set([a, b, c]).size).toBe(3);
      const [key, , , , other] = of('pressKey');
      expect(of('pressKey')).toEqual([key, key, key, key, other]);
      expect(other).not.toBe(key);
    }));
});

describe('a form', () => {
  const invoke = (name: string, data: object) => ({
    type: 'invoke',
    id: 'f:1',
    name,
    serviceUrl: 'https://teams.invalid/',
    from: { id: ANA },
    conversation: { id: 'a:1ana', conversationType: 'personal' },
    value: name === 'task/submit' ? { data } : { action: { verb: 'send', data } },
  });

  test.each(['task/submit', 'adaptiveCard/action'])('sent by %s is read with what was typed', (name) => {
    const sent = readInbound(invoke(name, { ...form, 'field:note': 'x' }));
    expect(sent).toMatchObject({
      kind: 'submit',
      member: ANA,
      form: { form: 'pause', shift: null },
      values: { note: 'x' },
    });
  });

  test('of somebody else’s making is a button that is not ours', () => {
    expect(readInbound(invoke('task/submit', { form: '{"form":"pause"}' }))).toMatchObject({
      kind: 'press',
      action: null,
    });
  });
});

describe('a line', () => {
  test('comes without the mention and as it was typed', () =>
    withLink(async (linked) => {
      const { teams } = linked;
      await teams.say(ANA, teams.chat(ANA), 'steel &lt; 30 &amp;amp; <at>Ben</at> says “ok”');
      await teams.say(BEN, DOCK, 'flushed 12 l');
      expect(read(linked)).toMatchObject([
        {
          kind: 'line',
          member: 'aad-ana',
          text: 'steel < 30 &amp; Ben says “ok”',
          place: { kind: 'personal', team: null },
        },
        {
          kind: 'line',
          member: 'aad-ben',
          text: 'flushed 12 l',
          place: { conversation: DOCK, kind: 'channel' },
        },
      ]);
    }));

  test('of a bot, or of nobody, is none', () => {
    const said = { type: 'message', serviceUrl: 'x', conversation: { id: 'a:1' }, text: 'x' };
    for (const from of [undefined, { id: '28:bot' }, { id: '28:other', role: 'bot' }])
      expect(readInbound({ ...said, from, recipient: { id: '28:bot' } })).toMatchObject({ kind: 'ignored' });
  });
});

describe('coming and going', () => {
  test('the app, people and names', () =>
    withLink(async (linked) => {
      const { teams, heard } = linked;
      await teams.uninstalls(ANA);
      await teams.installs(ANA);
      await teams.uninstalls(ANA, TEAM);
      await teams.installs(ANA, TEAM);
      await teams.leaves(BEN, TEAM);
      await teams.joins(BEN, TEAM);
      expect(read(linked)).toMatchObject([
        { kind: 'removed', what: 'chat' },
        { kind: 'removed', what: 'chat' },
        { kind: 'installed', by: 'aad-ana', place: { kind: 'personal' } },
        { kind: 'installed', by: 'aad-ana' },
        { kind: 'removed', what: 'team', place: { team: TEAM } },
        { kind: 'removed', what: 'team' },
        { kind: 'installed', place: { conversation: TEAM, team: TEAM } },
        { kind: 'installed' },
        { kind: 'members', joined: [], left: [{ id: BEN, aadObjectId: 'aad-ben' }] },
        { kind: 'members', joined: [{ id: BEN, aadObjectId: 'aad-ben' }], left: [] },
      ]);
      const event = (eventType: string, more: object) =>
        readInbound({
          ...heard.at(-1),
          membersAdded: [],
          channelData: { team: { id: TEAM, name: 'New yard' }, eventType, ...more },
        });
      const channel = { id: DOCK, name: 'Dock 3' };
      expect(event('teamRenamed', {})).toMatchObject({ kind: 'renamed', what: 'team', name: 'New yard' });
      expect(event('channelRenamed', { channel })).toMatchObject({
        kind: 'renamed',
        what: 'channel',
        name: 'Dock 3',
        place: { conversation: DOCK },
      });
      expect(event('channelDeleted', { channel })).toMatchObject({
        kind: 'removed',
        what: 'channel',
        place: { conversation: DOCK },
      });
      expect(event('teamDeleted', {})).toMatchObject({ kind: 'removed', what: 'team' });
      expect(event('channelCreated', { channel })).toMatchObject({ kind: 'ignored' });
    }));
});

test.each([
  [{}, false],
  [{ type: 'messageReaction', serviceUrl: 'x', conversation: { id: 'a' } }, false],
  [{ type: 'invoke', name: 'composeExtension/query', serviceUrl: 'x', conversation: { id: 'a' } }, true],
  [
    { type: 'invoke', name: 'adaptiveCard/action', value: 7, serviceUrl: 'x', conversation: { id: 'a' } },
    true,
  ],
])('%j is nothing for Potbell', (activity, invoke) => {
  expect(readInbound(activity)).toMatchObject({ kind: 'ignored', invoke });
});
