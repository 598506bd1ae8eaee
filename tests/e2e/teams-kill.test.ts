import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { readRecord } from '../../adapters/record/read-record.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { clockTime, MINUTE } from '../../src/model/time.ts';
import { type Running, site, startPotbell } from '../cli/potbell.ts';
import { deadBatch, runningDay, shiftOf } from '../cli/running-day.ts';
import { tempDir } from '../files/temp-dir.ts';
import type { MessageState, TeamsPeer } from '../peers/teams/peer.ts';
import { connect, dm, member, press, says, sendSheets, standing, textsFor, words } from './teams-hands.ts';
import { leaveBehind } from './teams-left.ts';
import { environmentFor, madeUpIds, startOrganisation, TEAM, writeDown } from './teams-place.ts';

const { people } = site.pack;
const CHANNEL = '19:span-2-crew@thread.tacv2';
const IDS = {
  appId: '00000000-0000-4000-8000-0000000000b0',
  tenantId: '00000000-0000-4000-8000-0000000000f0',
  secret: 'loopback-secret~1',
};

/** Everything that Potbell has said in the channel and to the crew and that stands now. */
const saidIn = (teams: TeamsPeer): readonly MessageState[] =>
  [CHANNEL, ...people.map(({ id }) => teams.chat(member(id)))].flatMap((where) => standing(teams, where));

/** What is the same when the same is said again. */
const nameOf = ({ conversation, id, thread, activity }: MessageState) =>
  `${conversation} ${thread === null || thread === id ? '' : 'below '}${String(activity.summary)}`;

const isRepeat = (message: MessageState, language: string) =>
  says([message], textsFor(language).say('late.repeat'));

/** The demo's site pack with the crew's ids written down. */
function linkedPack(): string {
  const pack = join(tempDir(), 'site');
  cpSync(demoSiteFolder(), pack, { recursive: true });
  writeDown(pack, `teams: { channel: "${CHANNEL}" }`, '  teams: x', madeUpIds);
  return pack;
}

/**
 * The real process with the platform's own library, killed with -9 while it brings the briefing to channel and crew. What
 * a bot said cannot be looked up in Teams. So what stands may stand twice if the answer to its post never came: then the
 * second says that it may have been seen. Nothing else may.
 */
describe('kill -9 with Teams', () => {
  const pack = linkedPack();
  const data = join(tempDir(), 'potbell.db');
  let teams: TeamsPeer;
  let potbell: Running;
  let shift = '';
  /** As it stood when the process died; of that, what had come to stand without an answer. */
  let before: readonly MessageState[] = [];
  let lost: readonly string[] = [];

  const start = () => startPotbell(data, ['--site', pack], environmentFor(teams));
  async function record() {
    const { body } = await potbell.get(`/file/${encodeURIComponent(shift)}/json`);
    expect(verifyRecord(body).problems).toEqual([]);
    const read = readRecord(body);
    if (!read.ok) throw new Error(read.problem);
    return read.record;
  }
  const linesOf = async (type: string) =>
    (await record()).journal.filter(({ event }) => event.body.type === type);
  /** Nothing is left to be said in Teams. */
  async function settled() {
    for (;;) {
      const open = (await record()).shown.filter(
        ({ surface, state }) => surface === 'teams' && (state === 'queued' || state === 'sending'),
      );
      if (open.length === 0) return;
      for (const { id } of open) await potbell.says('err', new RegExp(`"delivery":"${id}".*said in Teams`));
    }
  }
  const told = (person: (typeof people)[number]) =>
    says(dm(teams, person.id), textsFor(person.language).say('sign.ask', { person: person.name }));

  beforeAll(async () => {
    teams = await startOrganisation(IDS, CHANNEL, madeUpIds);
    potbell = await start();
    await connect(teams, potbell);
    for (const person of ['ines', 'rui']) {
      await teams.installs(member(person));
      await teams.until(() => dm(teams, person).length === 1);
    }
    await teams.installs(member('ines'), TEAM);
  });
  afterAll(async () => {
    teams?.httpTo(null);
    await potbell?.stop('SIGTERM');
    await teams?.close();
  });

  it('dies after a press and a line were answered, with the briefing half said', async () => {
    const day = runningDay(await potbell.clock());
    shift = shiftOf(day);
    const earlier = teams.callsOf('sendToConversation').length;
    // Chats and threads can be opened; of what is said in them, two come to stand without an answer, all else is lost.
    teams.fault('sendToConversation', { kind: 'hang', accepted: true }, 2);
    teams.fault('sendToConversation', { kind: 'hang' }, 1000);
    expect(await press(teams, 'ines', 'Post the day')).toMatchObject({ status: 200 });
    const hours = {
      'field:date': day.date,
      'field:start': day.start,
      'field:end': day.end,
      'field:breaks': '',
    };
    expect(await sendSheets(teams, 'ines', hours)).toEqual(['Post the day']);
    const sends = () => teams.callsOf('sendToConversation').slice(earlier);
    const inThread = () => sends().filter(({ conversation }) => conversation.startsWith(`${CHANNEL};`));
    await teams.until(() => inThread().length > 0 && sends().some(({ status }) => status === 'hangs'));
    const line = 'reading 16 C 78 % steel 19 C';
    expect(await teams.say(member('rui'), teams.chat(member('rui')), line)).toMatchObject({ status: 200 });
    await potbell.stop('SIGKILL');
    teams.httpTo(null);
    teams.noFaults();
    before = saidIn(teams);
    const answerless = sends().filter(({ status }) => status !== 'hangs');
    lost = before.filter(({ id }) => answerless.some(({ response }) => response.id === id)).map(nameOf);
    expect(lost).toHaveLength(2);
    expect(people.filter(told).length).toBeLessThan(people.length);
  });

  it('has what was answered in the journal, once, and says the rest without anybody writing first', async () => {
    potbell = await start();
    await settled();
    expect(await linesOf('day-posted')).toHaveLength(1);
    expect(await linesOf('reading-taken')).toHaveLength(1);
    for (const person of people) expect(told(person)).toBe(true);
  });

  it('goes on with the briefing where it broke off', async () => {
    const briefing = (messages: readonly MessageState[]) =>
      messages.filter(({ activity }) => /^Prestart briefing/.test(String(activity.summary)));
    const [first, ...below] = briefing(saidIn(teams));
    expect(briefing(before)[0]?.id).toBe(first?.id);
    expect(below).toHaveLength(lost.some((name) => name.includes('below Prestart')) ? 2 : 1);
    expect(below.filter(({ thread }) => thread !== first?.id)).toEqual([]);
  });

  it('says twice only what came to stand without an answer, and marks what may be a repeat', async () => {
    const after = saidIn(teams).map(nameOf);
    for (const name of after)
      expect([name, after.filter((one) => one === name).length]).toEqual([name, lost.includes(name) ? 2 : 1]);
    const signOffs = (await record()).shown.filter(
      ({ surface, key }) => surface === 'teams' && key.startsWith('sign-off:'),
    );
    expect(signOffs).toHaveLength(people.length);
    for (const { id, language } of people) {
      const tries = signOffs.find(({ person }) => person?.id === id)?.attempts ?? 0;
      const [last, ...earlier] = dm(teams, id).toReversed();
      expect([id, last !== undefined && isRepeat(last, language)]).toEqual([id, tries > 1]);
      expect(earlier.filter((one) => isRepeat(one, language))).toEqual([]);
    }
    // What answers one person on the spot is in no outbox: it is not said again. The reading is in the channel.
    expect(says(dm(teams, 'rui'), textsFor('en').say('done.take-reading'))).toBe(false);
    expect(after.filter((name) => name.startsWith(`${CHANNEL} below Reading`))).toHaveLength(1);
  });

  it('takes what Teams brings a second time for what it is, and rings', async () => {
    await connect(teams, potbell);
    expect(await teams.replayLast()).toMatchObject({ status: 200 });
    expect(await linesOf('reading-taken')).toHaveLength(1);
    const now = await potbell.clock();
    expect(await potbell.send('bento', deadBatch(now), 'an-old-batch')).toMatchObject({ ok: true });
    const dead = () => standing(teams, CHANNEL).filter((one) => nameOf(one).includes('paint is DEAD'));
    await teams.until(() => dead().length > 0);
    // Logged late by a person, which is not the fault of the bell.
    expect(dead().some((one) => says([one], 'min late'))).toBe(false);
    expect((await potbell.stop('SIGTERM')).code).toBe(0);
  });
});

describe('bells that came due while Potbell was gone', () => {
  const data = join(tempDir(), 'overdue.db');
  const pack = linkedPack();
  let teams: TeamsPeer;
  let potbell: Running | null = null;
  let died = 0;
  let heard = 0;

  beforeAll(async () => {
    // On a clock set back nobody waits for the limits of the real one.
    teams = await startOrganisation(IDS, CHANNEL, madeUpIds, { limits: false });
    died = teams.clock.now() - 164 * MINUTE;
    await leaveBehind(teams, pack, data, died);
    heard = teams.deliveries.length;
    potbell = await startPotbell(data, ['--site', pack], environmentFor(teams));
  });
  afterAll(async () => {
    await potbell?.stop('SIGTERM');
    await teams?.close();
  });

  it('ring in Teams at once, say how late they are, and nobody had to write first', async () => {
    const dead = () => standing(teams, CHANNEL).filter((one) => nameOf(one).includes('paint is DEAD'));
    await teams.until(() => dead().length > 0);
    const text = words(dead());
    const [, minutes, time] =
      /This bell is (\d+) min late\. It should have rung at (\d\d:\d\d)/.exec(text) ?? [];
    expect(time).toBe(clockTime(died + 120 * MINUTE, site.pack.site.timeZone));
    // What starting takes comes on top.
    expect(Number(minutes)).toBeGreaterThanOrEqual(44);
    expect(text).toMatch(/\d+ rings missed meanwhile/);
    // Somebody's own bell comes to a chat that was opened before.
    await teams.until(() => says(dm(teams, 'marta'), 'min late'));
    expect(teams.deliveries).toHaveLength(heard);
  });
});
