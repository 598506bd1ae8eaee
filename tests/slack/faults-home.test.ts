import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { handTimers } from './by-hand.ts';
import { type Crew, crewOnSlack, read } from './crew.ts';
import { dayOf, mustOnBoard } from './faults.ts';

let crew: Crew;
let timers: ReturnType<typeof handTimers>;
beforeEach(async () => {
  timers = handTimers();
  crew = await crewOnSlack({ again: timers.again });
  await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
  await crew.passTo('07:00');
  await quiet();
});
afterEach(async () => {
  await crew.close();
});

const published = (person?: string) =>
  crew.slack
    .callsOf('views.publish')
    .filter(({ args }) => person === undefined || args.user_id === crew.member(person));
const home = (person: string) => read(crew.slack.home(crew.member(person))?.view);

async function open(person: string): Promise<void> {
  const before = published(person).length;
  await crew.slack.openHome(crew.member(person));
  await crew.slack.until(() => published(person).length > before);
  await quiet();
}

/** Until nothing more is published without a timer going off. */
async function quiet(): Promise<void> {
  let turns = 0;
  let calls = published().length;
  await crew.slack.until(() => {
    turns = published().length === calls ? turns + 1 : 0;
    calls = published().length;
    return turns > 50;
  });
}

async function commit(text: string): Promise<void> {
  await mustOnBoard(crew, 'tomas', { type: 'raise-concern', text });
}

describe('the Homes', () => {
  it('of who looked in the last 15 minutes are kept up to date, and no other', async () => {
    await open('rui');
    crew.pass(10 * 60_000);
    await open('ines');
    crew.pass(6 * 60_000);
    const before = published('rui').length;
    await commit('The earth clamp sits on paint.');
    await quiet();
    expect(home('ines')).toContain('The earth clamp sits on paint.');
    expect(published('rui')).toHaveLength(before);
    await open('rui');
    expect(home('rui')).toContain('The earth clamp sits on paint.');
  });

  it('of nobody: nothing is published', async () => {
    await commit('The earth clamp sits on paint.');
    await quiet();
    expect(published()).toEqual([]);
  });

  it('of a burst show its end, in two pictures each', async () => {
    await open('ines');
    await open('rui');
    crew.pass(60_000);
    await commit('Number 0.');
    await quiet();
    const before = published().length;
    for (let number = 1; number <= 20; number += 1) await commit(`Number ${number}.`);
    await quiet();
    expect(published()).toHaveLength(before);
    expect(timers.waits()).toHaveLength(1);
    timers.goOff();
    await quiet();
    expect(published()).toHaveLength(before + 2);
    expect(home('ines')).toContain('Number 20.');
    expect(home('rui')).toContain('Number 20.');
  });

  it('that could not be published are with the next burst, and by themselves when there is none', async () => {
    await open('ines');
    crew.pass(60_000);
    crew.slack.fault('views.publish', { kind: '429', retryAfter: 12 });
    await commit('Number 1.');
    await quiet();
    expect(home('ines')).not.toContain('Number 1.');
    expect(timers.waits()).toEqual([12_000]);
    crew.pass(12_000);
    timers.goOff();
    await quiet();
    expect(home('ines')).toContain('Number 1.');
    expect(timers.waits()).toEqual([]);

    crew.pass(60_000);
    crew.slack.fault('views.publish', { kind: 'status', status: 503 });
    await commit('Number 2.');
    await quiet();
    await commit('Number 3.');
    crew.pass(30_000);
    timers.goOff();
    await quiet();
    expect(home('ines')).toContain('Number 3.');
    expect(crew.faults).toEqual([]);
  });
});
