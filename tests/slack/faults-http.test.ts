import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { instantOf } from '../../src/model/time.ts';
import { CHANNEL, type Crew, crewOnSlack, DATE, read, slackSite } from './crew.ts';
import { dayOf, mustOnBoard, SHIFT, today } from './faults.ts';

let crew: Crew;
// Bolt compares the time of a signature with the machine's date: here that is the time of the peer and of Potbell.
beforeEach(async () => {
  const { timeZone } = slackSite().pack.site;
  vi.useFakeTimers({ toFake: ['Date'], now: instantOf(DATE, '06:30', timeZone) });
  crew = await crewOnSlack({ way: 'http' });
});
afterEach(async () => {
  await crew.close();
  vi.useRealTimers();
});

const lines = async () => (await crew.potbell.store.journal(SHIFT(crew))).length;

describe('over HTTP', () => {
  it('the day is posted by a form and signed with two taps', async () => {
    const ines = crew.member('ines');
    const top = () => crew.slack.modals(ines).at(-1);
    await crew.slack.openHome(ines);
    await crew.slack.until(() => crew.slack.home(ines) !== null);
    expect(await crew.slack.pressIn(ines, 'home', { label: 'Post the day' })).toMatchObject({ status: 200 });
    await crew.slack.until(() => top() !== undefined);
    for (let steps = 0; read(top()?.view).includes('Step'); steps += 1) {
      if (steps > 20) throw new Error('the form does not end');
      const answers = JSON.stringify(top()?.view).includes('"date"')
        ? { date: DATE, start: '07:30', end: '16:30', breaks: '10:00-10:20, 12:30-13:15' }
        : {};
      expect(await crew.slack.submit(ines, answers)).toMatchObject({ acked: true, status: 200 });
    }
    expect(read(top()?.view)).toContain('Day posted.');
    await crew.passTo('07:00');
    expect(read(crew.channel()[0]?.blocks)).toContain('225 bar');

    for (const person of ['marta', 'tomas']) {
      const question = openQuestion(await today(crew), person);
      const press = (fits: string) => {
        const dm = crew.slack.dm(crew.member(person));
        const [message] = crew.dm(person).filter(({ threadTs }) => threadTs === null);
        const values = [...JSON.stringify(message?.blocks).matchAll(/"value":"((?:[^"\\]|\\.)*)"/g)];
        const value = values
          .map(([, text]) => String(JSON.parse(`"${text}"`)))
          .find((one) => one.includes(fits));
        if (!message || value === undefined) throw new Error(`${person} finds no ${fits}`);
        return crew.slack.press(crew.member(person), { channel: dm, ts: message.ts, value });
      };
      await press(`"choice":${question?.order.indexOf(0)}`);
      await crew.slack.until(() => JSON.stringify(crew.dm(person)).includes('\\"sign\\"'));
      expect(await press('"sign"')).toMatchObject({ status: 200 });
      expect((await today(crew)).people[person]?.signOffs).toHaveLength(1);
    }
    expect(crew.faults).toEqual([]);
  });

  it.each(['stale', 'future', 'forged', 'unsigned'] as const)(
    'a %s request gets 401 and does nothing',
    async (how) => {
      await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
      const before = await lines();
      crew.slack.signNext(how);
      expect(
        await crew.slack.command(crew.member('tomas'), '/potbell', 'STOP!! wind', CHANNEL),
      ).toMatchObject({
        acked: false,
        status: 401,
      });
      expect(await lines()).toBe(before);
      expect((await today(crew)).stop).toBeNull();
      expect(crew.slack.seenBy(crew.member('tomas'), CHANNEL)).toEqual([]);
      // Rightly signed, the same is taken.
      expect(
        await crew.slack.command(crew.member('tomas'), '/potbell', 'STOP!! wind', CHANNEL),
      ).toMatchObject({
        acked: true,
      });
      expect((await today(crew)).stop?.text).toContain('wind');
    },
  );

  it('a request sent again word for word changes nothing twice', async () => {
    await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
    await crew.slack.command(crew.member('tomas'), '/potbell', 'STOP!! wind', CHANNEL);
    const before = await lines();
    const shown = crew.slack.seenBy(crew.member('tomas'), CHANNEL).length;
    for (let times = 0; times < 3; times += 1)
      expect(await crew.slack.replayLast()).toMatchObject({ status: 200 });
    expect(await lines()).toBe(before);
    await crew.slack.settled();
    expect(crew.slack.seenBy(crew.member('tomas'), CHANNEL).length).toBeLessThanOrEqual(Math.max(1, shown));
    expect(crew.faults).toEqual([]);
  });
});
