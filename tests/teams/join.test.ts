import { expect, test } from 'vitest';
import { joinTeams } from '../../adapters/teams/join.ts';
import type { Link } from '../../adapters/teams/link.ts';
import { handTimers } from '../slack/by-hand.ts';
import { keptLog } from './link-helpers.ts';

const config = { port: 8733 };
const app = (heard: boolean, away: string | null = null) => ({
  load: async () => undefined,
  heard: () => heard,
  surface: { away: () => away } as never,
});

/** A door that does not open the first `times`. */
function stuck(times: number, code: string) {
  let tries = 0;
  let closed = false;
  const link: Link = {
    async open() {
      tries += 1;
      if (tries <= times) throw Object.assign(new Error('listen'), { code });
    },
    async close() {
      closed = true;
    },
    port: () => null,
  };
  return { link, tries: () => tries, closed: () => closed };
}
/** All that is under way without a timer has ended. */
const settled = () => new Promise<void>((resolve) => void setImmediate(resolve));

test('a port that is taken is said in words, tried again ever later, and forgotten once it opens', async () => {
  const timers = handTimers();
  const door = stuck(3, 'EADDRINUSE');
  const joining = joinTeams(app(true), door.link, config, keptLog().log, timers.again);
  const waits: number[] = [];
  for (let turn = 0; turn < 3; turn += 1) {
    await settled();
    expect(joining.problem()).toContain('Something else uses port 8733');
    waits.push(...timers.waits());
    timers.goOff();
  }
  await settled();
  expect(waits).toEqual([2_000, 4_000, 8_000]);
  expect(joining.problem()).toBeNull();
  await joining.stop();
  expect(door.closed()).toBe(true);
});

test('until Teams has said where to write, and while it does not take what is said, that is the problem', async () => {
  const door = stuck(0, '');
  const early = joinTeams(app(false), door.link, config, keptLog().log, handTimers().again);
  await settled();
  expect(early.problem()).toContain('Nothing has come from Teams yet');
  const away = joinTeams(
    app(true, 'Teams is out of order.'),
    door.link,
    config,
    keptLog().log,
    handTimers().again,
  );
  await settled();
  expect(away.problem()).toBe('Teams is out of order.');
});

test('stopped, it does not try again', async () => {
  const timers = handTimers();
  const door = stuck(9, 'EACCES');
  const joining = joinTeams(app(true), door.link, config, keptLog().log, timers.again);
  await settled();
  expect(joining.problem()).toContain('Potbell may not use port 8733');
  await joining.stop();
  timers.goOff();
  await settled();
  expect(door.tries()).toBe(1);
});
