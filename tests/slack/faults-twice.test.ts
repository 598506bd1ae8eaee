import { afterEach, describe, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { rigChecks } from '../../src/model/checks.ts';
import { CHANNEL, type Crew, crewOnSlack, read } from './crew.ts';
import { dayOf, mustOnBoard, playOnBoard, SHIFT, today } from './faults.ts';

const { textsFor } = loadTexts();
const words = (crew: Crew, person: string) =>
  textsFor(crew.site.pack.people.find(({ id }) => id === person)?.language ?? 'en');

let crew: Crew;
afterEach(async () => {
  await crew.close();
});

const lines = async (date?: string) => (await crew.potbell.store.journal(SHIFT(crew, date))).length;
/** What a person alone is shown in the channel. */
const alone = (person: string) =>
  crew.slack
    .seenBy(crew.member(person), CHANNEL)
    .filter(({ ephemeralTo }) => ephemeralTo !== null)
    .map(({ blocks }) => read(blocks));

/** What came before has been answered by then: another one's line is, and each takes as long. */
async function answered(): Promise<void> {
  for (let times = 0; times < 3; times += 1) {
    const before = alone('rui').length;
    await crew.slack.command(crew.member('rui'), '/potbell', 'help', CHANNEL);
    await crew.slack.until(() => alone('rui').length > before);
  }
}

/** Paint is in the line of rig 1, the hose turned warm, and the bell to start the flush has rung in the channel. */
async function withBell(): Promise<string> {
  crew = await crewOnSlack();
  await playOnBoard(crew, () => undefined, '10:06');
  await crew.passTo('10:06');
  const bell = crew.channel().findLast(({ blocks }) => JSON.stringify(blocks).includes('start-flush:rig-1'));
  if (!bell) throw new Error('nothing rang');
  return bell.ts;
}

const answer = (person: string, ts: string) =>
  crew.slack.press(crew.member(person), {
    channel: CHANNEL,
    ts,
    label: textsFor('en').say('bell.answer'),
  });
const startFlush = (person: string, ts: string) =>
  crew.slack.press(crew.member(person), {
    channel: CHANNEL,
    ts,
    label: textsFor('en').say('today.press-flush'),
  });

describe('what comes twice changes nothing twice', () => {
  it('a press delivered twice: one event, one answer', async () => {
    const bell = await withBell();
    await answer('duarte', bell);
    await crew.slack.until(() => alone('duarte').length > 0);
    const before = await lines();
    const told = alone('duarte');
    expect(told).toHaveLength(1);
    expect(await crew.slack.replayLast()).toMatchObject({ acked: true });
    expect(await lines()).toBe(before);
    await answered();
    expect(alone('duarte')).toEqual(told);
    expect(crew.faults).toEqual([]);
  });

  it('events with the same event_id: a typed line is taken once', async () => {
    await withBell();
    const before = await lines();
    const dm = crew.slack.dm(crew.member('tomas'));
    const stood = crew.dm('tomas').length;
    crew.slack.duplicateEvents(1);
    await crew.slack.say(crew.member('tomas'), dm, 'STOP!! viento');
    await crew.slack.until(() => crew.dm('tomas').length > stood + 1);
    expect((await today(crew)).stop?.text).toContain('viento');
    await answered();
    expect(crew.dm('tomas')).toHaveLength(stood + 2);
    expect(await lines()).toBe(before + 1);
    await crew.deliver();
    expect(crew.channel().filter(({ text }) => text.includes('STOP WORK, called'))).toHaveLength(1);
    expect(crew.faults).toEqual([]);
  });

  it('a command delivered twice', async () => {
    await withBell();
    await crew.slack.command(crew.member('duarte'), '/potbell', 'reading 16 C 78 % steel 19 C', CHANNEL);
    const before = await lines();
    expect(await crew.slack.replayLast()).toMatchObject({ acked: true });
    expect(await lines()).toBe(before);
    await answered();
    expect(alone('duarte')).toHaveLength(1);
    expect((await today(crew)).readings.filter(({ airC }) => airC === 16)).toHaveLength(2);
  });

  it('a sheet sent twice', async () => {
    await withBell();
    await crew.slack.command(crew.member('duarte'), '/potbell', 'check rig-1', CHANNEL);
    await crew.slack.until(() => crew.slack.modals(crew.member('duarte')).length > 0);
    const before = await lines();
    await crew.slack.submit(crew.member('duarte'), Object.fromEntries(rigChecks.map((one) => [one, 'ok'])));
    const after = await lines();
    expect(after).toBeGreaterThan(before);
    expect(await crew.slack.replayLast()).toMatchObject({ acked: true });
    expect(await lines()).toBe(after);
  });
});

describe('two people press one button', () => {
  it('both are on it: one is, the other reads who, in their own language', async () => {
    const bell = await withBell();
    const before = await lines();
    await Promise.all([answer('duarte', bell), answer('tomas', bell)]);
    expect(await lines()).toBe(before + 1);
    const answered = (await today(crew)).bells['start-flush:rig-1:line:rig-1-1']?.answered?.by;
    const [first, second] = answered === 'duarte' ? ['duarte', 'tomas'] : ['tomas', 'duarte'];
    await crew.slack.until(() => alone('duarte').length > 0 && alone('tomas').length > 0);
    const name = crew.site.pack.people.find(({ id }) => id === answered)?.name ?? '';
    expect(alone(first ?? '').join()).toContain(words(crew, first ?? '').say('done.answer-bell'));
    expect(alone(second ?? '').join()).toContain(
      words(crew, second ?? '').say('refusal.bell-answered', { person: name }),
    );
  });

  it('both start the flush: there is one flush', async () => {
    const bell = await withBell();
    await Promise.all([startFlush('duarte', bell), startFlush('tomas', bell)]);
    const flushes = (await crew.potbell.store.journal(SHIFT(crew))).filter(
      ({ event }) => event.body.type === 'flush-started',
    );
    expect(flushes).toHaveLength(1);
    await crew.slack.until(() => alone('duarte').length + alone('tomas').length >= 2);
    expect(alone('tomas').join()).not.toContain('Start the flush');
    expect(crew.faults).toEqual([]);
  });
});

describe("a press on an earlier day's message", () => {
  const NEXT = '2026-06-09';

  /** Yesterday was closed; today's briefing is out. `ts`: yesterday's bell, still standing in the channel. */
  async function nextDay(): Promise<string> {
    crew = await crewOnSlack();
    await crew.slack.openHome(crew.member('tomas'));
    await playOnBoard(crew, () => undefined, '10:06');
    await crew.slack.openHome(crew.member('tomas'));
    await crew.slack.until(() =>
      JSON.stringify(crew.slack.home(crew.member('tomas'))).includes('raise-concern'),
    );
    await playOnBoard(crew, () => undefined, '24:00', '10:06');
    expect((await today(crew)).status).toBe('closed');
    crew.pass(14 * 3_600_000);
    await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew, NEXT) }, NEXT);
    crew.pass(3_600_000);
    await crew.potbell.host.bells.runDue();
    await crew.deliver();
    expect((await crew.potbell.host.currentShift())?.date).toBe(NEXT);
    const bell = crew.channel().find(({ blocks }) => JSON.stringify(blocks).includes('start-flush:rig-1'));
    if (!bell) throw new Error('yesterday had no bell');
    return bell.ts;
  }

  it('does nothing to today, and says so kindly', async () => {
    const bell = await nextDay();
    const before = [await lines(), await lines(NEXT)];
    for (const press of [answer, startFlush]) {
      expect(await press('tomas', bell)).toMatchObject({ acked: true });
      await crew.slack.until(() => alone('tomas').length > 0);
    }
    expect([await lines(), await lines(NEXT)]).toEqual(before);
    const said = alone('tomas').join();
    expect(said).toContain(words(crew, 'tomas').say('board.oldButtonTitle'));
    expect(said).toContain(words(crew, 'tomas').say('talk.old-button'));
    expect(crew.faults).toEqual([]);
  });

  it('a form of it is not opened; the work of today is stopped all the same', async () => {
    await nextDay();
    const tomas = crew.member('tomas');
    const { say } = words(crew, 'tomas');
    const top = () => crew.slack.modals(tomas).at(-1);
    await crew.slack.pressIn(tomas, 'home', { label: say('today.press-concern') });
    await crew.slack.until(() => top() !== undefined);
    expect(read(top()?.view)).toContain(say('talk.old-button'));
    const before = [await lines(), await lines(NEXT)];
    const first = top()?.id;
    await crew.slack.pressIn(tomas, 'home', { label: say('today.press-flush') });
    await crew.slack.until(() => top()?.id !== first);
    expect(read(top()?.view)).toContain(say('talk.old-button'));
    expect([await lines(), await lines(NEXT)]).toEqual(before);
    const seen = top()?.id;
    await crew.slack.pressIn(tomas, 'home', { label: say('talk.stop') });
    await crew.slack.until(() => top()?.id !== seen);
    await crew.slack.submit(tomas, { text: 'viento' });
    expect((await today(crew, NEXT)).stop?.text).toBe('viento');
    expect((await today(crew)).stop).toBeNull();
  });

  it('that works over its time and is still open counts for its own day', async () => {
    crew = await crewOnSlack({ at: '21:00' });
    const night = { ...dayOf(crew), start: '22:00', end: '06:30', breaks: [], forecast: [] };
    await mustOnBoard(crew, 'ines', { type: 'post-day', entry: night });
    await crew.passTo('22:30');
    await mustOnBoard(crew, 'tomas', { type: 'stop-work', text: 'Wind.' });
    crew.pass(20 * 60_000);
    await crew.potbell.host.bells.runDue();
    await crew.deliver();
    const bell = crew.channel().findLast(({ blocks }) => JSON.stringify(blocks).includes('answer-bell'));
    if (!bell) throw new Error('nothing rang');
    const key = /\\"bell\\":\\"([^\\]+)/.exec(JSON.stringify(bell.blocks))?.[1] ?? '';
    await mustOnBoard(
      crew,
      'ines',
      { type: 'post-day', entry: { ...dayOf(crew, NEXT), start: '07:00' } },
      NEXT,
    );
    crew.pass(8 * 3_600_000 + 15 * 60_000);
    expect((await crew.potbell.host.currentShift())?.date).toBe(NEXT);
    const before = await lines(NEXT);
    expect(await answer('duarte', bell.ts)).toMatchObject({ acked: true });
    expect((await today(crew)).bells[key]?.answered?.by).toBe('duarte');
    expect(await lines(NEXT)).toBe(before);
  });
});
