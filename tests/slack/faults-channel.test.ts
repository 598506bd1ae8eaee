import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CHANNEL, type Crew, crewOnSlack, read } from './crew.ts';
import { dayOf, mustOnBoard, SHIFT, today, wrongIn } from './faults.ts';

let crew: Crew;
beforeEach(async () => {
  crew = await crewOnSlack();
  await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
  await crew.passTo('07:00');
  await crew.deliver();
});
afterEach(async () => {
  await crew.close();
});

const lines = async () => (await crew.potbell.store.journal(SHIFT(crew))).length;
const ours = () => crew.slack.messages(CHANNEL).filter(({ botId }) => botId !== null).length;

describe('what is said in the channel and is not for Potbell', () => {
  it('people talking, in the channel or a thread, changes nothing and is not answered', async () => {
    const before = [await lines(), ours(), crew.dm('tomas').length];
    const tomas = crew.member('tomas');
    const [day] = crew.channel();
    const { ts } = await crew.slack.say(tomas, CHANNEL, 'stop by the shed later, bring 20 L');
    await crew.slack.say(tomas, CHANNEL, 'flush rig-1', { threadTs: day?.ts ?? '' });
    await crew.slack.say(tomas, CHANNEL, '', { edited: ts });
    await crew.slack.say(tomas, CHANNEL, '', { deleted: ts });
    await crew.slack.settled();
    expect([await lines(), ours(), crew.dm('tomas').length]).toEqual(before);
    expect(crew.faults).toEqual([]);
  });
});

describe('a channel that is no longer there for Potbell', () => {
  const undelivered = async () => (await today(crew)).undelivered;

  it.each([
    ['thrown out', () => crew.slack.botIn(CHANNEL, false), 'not_in_channel'],
    ['archived', () => crew.slack.archive(CHANNEL), 'is_archived'],
  ] as const)(
    '%s: people still hear it in person, and the foreman learns what to do',
    async (_, break_, code) => {
      break_();
      await mustOnBoard(crew, 'tomas', { type: 'stop-work', text: 'Wind.' });
      await crew.deliver();
      // The stop itself, and where it can no longer be changed the briefing with what holds.
      const lost = await undelivered();
      expect(lost.length).toBeGreaterThan(0);
      for (const one of lost)
        expect(one).toMatchObject({ to: 'crew', surface: 'slack', why: expect.stringContaining(code) });
      const told = read(crew.dm('ines').map(({ blocks }) => blocks));
      expect(told).toContain(code);
      expect(await lines()).toBeGreaterThan(2);
    },
  );

  it('and back in it: what is said from then on is said', async () => {
    crew.slack.botIn(CHANNEL, false);
    await mustOnBoard(crew, 'tomas', { type: 'stop-work', text: 'Wind.' });
    await crew.deliver();
    crew.slack.botIn(CHANNEL, true);
    await mustOnBoard(crew, 'ines', { type: 'clear-stop-work', text: 'It is calm, Rui measured.' });
    await crew.deliver();
    expect(crew.channel().some(({ text }) => text.includes('It is calm'))).toBe(true);
  });

  it("somebody deleted the day's first message: what follows begins a new thread", async () => {
    const [day] = crew.channel();
    crew.slack.fault('chat.postMessage', { kind: 'error', error: 'thread_not_found' });
    await mustOnBoard(crew, 'tomas', { type: 'raise-concern', text: 'Wind at the gantry.' });
    await crew.deliver();
    await mustOnBoard(crew, 'rui', { type: 'raise-concern', text: 'It is calm but wet.' });
    await crew.deliver();
    // What holds stands in the day's first message as well.
    const said = (words: string) =>
      crew.channel().find(({ text, ts }) => text.includes(words) && ts !== day?.ts);
    const stop = said('Wind at the gantry');
    expect(stop?.threadTs).toBeNull();
    expect(said('It is calm')?.threadTs).toBe(stop?.ts);
    expect(await undelivered()).toEqual([]);
    expect(await wrongIn(crew)).toEqual([]);
  });
});
