import { describe, expect, test } from 'vitest';
import { createTeamsPace, sendAllowances, tenantAllowance } from '../../adapters/teams/pace.ts';

const HOUR = 3_600_000;

/** Says as much as it may in each of these conversations until `until`, and gives when and where. */
function greedy(conversations: readonly string[], until: number) {
  const pace = createTeamsPace();
  const said: { at: number; where: string }[] = [];
  let now = 0;
  while (now < until) {
    const waits = conversations.map((where) => {
      let wait = pace.takePost(where, now);
      while (wait === 0) {
        said.push({ at: now, where });
        wait = pace.takePost(where, now);
      }
      return wait;
    });
    now += Math.min(...waits);
  }
  return said;
}

/** The most that falls into any stretch of this length. */
function most(times: readonly number[], withinMs: number): number {
  let from = 0;
  let found = 0;
  for (const [index, at] of times.entries()) {
    while ((times[from] ?? at) + withinMs <= at) from += 1;
    found = Math.max(found, index - from + 1);
  }
  return found;
}

// learn.microsoft.com/microsoftteams/platform/bots/how-to/rate-limit, per bot and thread.
describe('the pace of Teams', () => {
  test('keeps every limit of one conversation, and uses all of each', () => {
    const times = greedy(['a'], HOUR + 60_000).map(({ at }) => at);
    expect([1_000, 2_000, 30_000, HOUR].map((ms) => most(times, ms))).toEqual([7, 8, 60, 1_800]);
    expect(sendAllowances.map((one) => [one.most, one.withinMs])).toEqual([
      [7, 1_000],
      [8, 2_000],
      [60, 30_000],
      [1_800, HOUR],
    ]);
  });

  test('keeps the one of the whole organisation', () => {
    const places = Array.from({ length: 12 }, (_, at) => `c${at}`);
    const times = greedy(places, 20_000).map(({ at }) => at);
    expect(most(times, 1_000)).toBe(30);
    expect([tenantAllowance.most, tenantAllowance.withinMs]).toEqual([30, 1_000]);
  });

  test('counts updates as sends, and leaves two seconds between those of one message', () => {
    const pace = createTeamsPace();
    for (let at = 0; at < 7; at += 1) expect(pace.takeUpdate('a', `m${at}`, 0)).toBe(0);
    expect(pace.takePost('a', 0)).toBe(1_000);
    expect(pace.takeUpdate('a', 'm7', 0)).toBe(1_000);
    expect(pace.takeUpdate('a', 'm0', 1_000)).toBe(1_000);
    expect(pace.takePost('b', 0)).toBe(0);
  });

  test('holds one conversation for what the platform asked, for posts and updates alike', () => {
    const pace = createTeamsPace();
    pace.hold('updates', 'a', 5_000);
    expect([pace.takePost('a', 0), pace.takeUpdate('a', 'm', 0), pace.nextAt('a', 0)]).toEqual([
      5_000, 5_000, 5_000,
    ]);
    expect(pace.takePost('b', 0)).toBe(0);
    expect(pace.takePost('a', 5_000)).toBe(0);
  });
});
