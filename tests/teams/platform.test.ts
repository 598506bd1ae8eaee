import { expect, test } from 'vitest';
import type { Said } from '../../adapters/chat/said.ts';
import { talkWords } from '../../adapters/cli/talk-words.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { messageName, teamsPlatform } from '../../adapters/teams/platform.ts';
import type { Sender } from '../../adapters/teams/sender.ts';
import { message, paragraph } from '../../src/message/build.ts';
import { CHANNEL, teamsSite } from './crew.ts';
import { readCard } from './render-check.ts';

const texts = loadTexts().textsFor('en');
const { pack } = teamsSite();

/** What was asked of the sender; it answers each with `answer`. */
function platform(answer: unknown = { kind: 'ok', value: { id: '7', thread: '5', conversation: CHANNEL } }) {
  const asked: unknown[] = [];
  const keep = async (what: unknown) => {
    asked.push(what);
    return answer as never;
  };
  const out: Pick<Sender, 'post' | 'update' | 'delete' | 'openPersonal' | 'meet'> = {
    post: keep,
    update: keep,
    delete: keep,
    openPersonal: keep,
    meet: async () => undefined,
  };
  const services = { pack: () => pack, words: talkWords };
  return { asked, teams: teamsPlatform(services, out, { userId: async () => null }) };
}

const bell = (more: Partial<Said> = {}): Said => ({
  id: 'quay:2026-06-08:4:0',
  shift: 'quay:2026-06-08',
  key: 'bell:use-by',
  audience: { kind: 'crew' },
  urgency: 'bell',
  message: message('USE BY 10:10. Duarte, stop.', 'danger', paragraph('Ruined pots are not of Rui.')),
  possibleRepeat: false,
  ...more,
});

test('a bell mentions who is named in it and the foremen, nobody by half of a word', () => {
  const { teams } = platform();
  const [part] = teams.parts(bell({ message: message('Ruined: tell Duarte.', 'danger') }), texts, true);
  const named = part?.card.msteams.entities?.map(({ mentioned }) => mentioned.name);
  expect(named?.sort()).toEqual(['Duarte', 'Ines']);
  const [quiet] = teams.parts(bell(), texts, false);
  expect(quiet?.card.msteams.entities).toBeUndefined();
});

test('no word of a bell is lost for its mentions', () => {
  const { teams } = platform();
  const [part] = teams.parts(bell(), texts, true);
  for (const word of ['USE BY 10:10. Duarte, stop.', 'Ruined pots are not of Rui.'])
    expect(part && readCard(part.card)).toContain(word);
});

test('a bell in somebody’s own chat makes a noise there; a quiet word makes none', () => {
  const { teams } = platform();
  const own = { audience: { kind: 'person', person: 'rui' } } as const;
  expect(teams.parts(bell(own), texts, false)[0]?.alert).toBe(true);
  expect(teams.parts(bell({ ...own, urgency: 'quiet' }), texts, false)[0]?.alert).toBe(false);
});

test('a reply is changed and taken away in its thread, a first message in its own', async () => {
  const { teams, asked } = platform();
  const [part] = teams.parts(bell(), texts, false);
  if (part === undefined) throw new Error('no part');
  const posted = await teams.post({ channel: CHANNEL, part, marker: 'm', lookFirst: false, under: '5' });
  expect(posted).toEqual({ kind: 'ok', value: { id: messageName('7', '5') } });
  await teams.update({ channel: CHANNEL, id: messageName('7', '5'), part });
  await teams.remove({ channel: CHANNEL, id: messageName('5', '5') });
  await teams.remove({ channel: 'a:1rui', id: messageName('9', null) });
  expect(asked).toMatchObject([
    { conversation: CHANNEL, thread: '5', marker: 'm.0' },
    { conversation: CHANNEL, thread: '5', id: '7' },
    { conversation: CHANNEL, thread: '5', id: '5' },
    { conversation: 'a:1rui', thread: null, id: '9' },
  ]);
});

test('a reply to what is gone begins the thread anew; the same refusal of a first message is about the channel', async () => {
  const { teams } = platform({ kind: 'gone', why: 'gone', code: 'ConversationNotFound' });
  const [part] = teams.parts(bell(), texts, false);
  if (part === undefined) throw new Error('no part');
  const post = { channel: CHANNEL, part, marker: 'm', lookFirst: false };
  const meanings = [await teams.post({ ...post, under: '5' }), await teams.post(post)].map((sent) =>
    sent.kind === 'gone' ? teams.meaning(sent.code) : sent.kind,
  );
  expect(meanings).toEqual(['thread-lost', null]);
});
