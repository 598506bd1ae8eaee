import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createPace } from '../../src/chat/pace.ts';

/** 2026-03-09 06:00 UTC. */
const T0 = 1_773_036_000_000;

/** docs.slack.dev/apis/web-api/rate-limits: "1 message per second per channel". */
describe('new messages', () => {
  test('a channel takes one a second, to the millisecond', () => {
    const pace = createPace();
    expect(pace.nextAt('C1', T0)).toBe(T0);
    expect(pace.takePost('C1', T0)).toBe(0);
    expect(pace.nextAt('C1', T0 + 1)).toBe(T0 + 1000);
    expect(pace.takePost('C1', T0 + 999)).toBe(1);
    expect(pace.takePost('C1', T0 + 1000)).toBe(0);
    expect(pace.takePost('C1', T0 + 1000)).toBe(1000);
  });

  test('a turn that is refused is not taken, and asking when it comes costs nothing', () => {
    const pace = createPace();
    pace.takePost('C1', T0);
    for (let ms = 1; ms < 1000; ms += 1) expect(pace.takePost('C1', T0 + ms)).toBe(1000 - ms);
    expect(pace.nextAt('C1', T0 + 1000)).toBe(T0 + 1000);
    expect(pace.nextAt('C1', T0 + 5000)).toBe(T0 + 5000);
    expect(pace.takePost('C1', T0 + 5000)).toBe(0);
  });

  test('whoever asks, and when: no channel gets two within a second, and one that waits as told gets its turn', () => {
    const asks = fc.array(fc.record({ channel: fc.constantFrom('C1', 'C2', 'C3'), after: fc.nat(1500) }), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(asks, (given) => {
        const pace = createPace();
        const last = new Map<string, number>();
        let now = T0;
        for (const { channel, after } of given) {
          now += after;
          const wait = pace.takePost(channel, now);
          const before = last.get(channel);
          expect(wait).toBe(before === undefined ? 0 : Math.max(0, before + 1000 - now));
          if (wait === 0) last.set(channel, now);
          else expect(pace.nextAt(channel, now + wait)).toBe(now + wait);
        }
      }),
    );
  });
});

describe('updates', () => {
  test('one message changes at most every 2 s; others and new messages do not wait for it', () => {
    const pace = createPace();
    expect(pace.takeUpdate('C1', '1.1', T0)).toBe(0);
    expect(pace.takeUpdate('C1', '1.1', T0 + 500)).toBe(1500);
    expect(pace.takeUpdate('C1', '1.2', T0 + 500)).toBe(0);
    expect(pace.takeUpdate('C2', '1.1', T0 + 500)).toBe(0);
    expect(pace.takePost('C1', T0 + 500)).toBe(0);
    expect(pace.takeUpdate('C1', '1.1', T0 + 2000)).toBe(0);
  });

  /** docs.slack.dev/reference/methods/chat.update: tier 3, 50+ a minute. */
  test('fifty within any minute, whatever the message', () => {
    const pace = createPace();
    for (let one = 0; one < 50; one += 1) expect(pace.takeUpdate('C1', `${one}`, T0 + one * 10)).toBe(0);
    expect(pace.takeUpdate('C9', 'other', T0 + 1000)).toBe(59_000);
    expect(pace.takeUpdate('C9', 'other', T0 + 60_000)).toBe(0);
    // The next place is free when the second of the fifty is a minute old.
    expect(pace.takeUpdate('C9', 'more', T0 + 60_000)).toBe(10);
  });

  test('one refused by the minute does not use up the message’s own turn', () => {
    const pace = createPace();
    for (let one = 0; one < 50; one += 1) pace.takeUpdate('C1', `${one}`, T0);
    pace.takeUpdate('C1', 'late', T0 + 59_999);
    expect(pace.takeUpdate('C1', 'late', T0 + 60_000)).toBe(0);
  });
});

describe('a wait that the platform asks for', () => {
  test('holds this channel and no other, and new messages or updates only', () => {
    const pace = createPace();
    pace.hold('posts', 'C1', T0 + 7000);
    expect(pace.nextAt('C1', T0)).toBe(T0 + 7000);
    expect(pace.takePost('C1', T0)).toBe(7000);
    expect(pace.takePost('C2', T0)).toBe(0);
    expect(pace.takeUpdate('C1', '1.1', T0)).toBe(0);
    pace.hold('updates', 'C1', T0 + 9000);
    expect(pace.takeUpdate('C1', '1.2', T0)).toBe(9000);
    expect(pace.takeUpdate('C2', '1.2', T0)).toBe(0);
    expect(pace.takePost('C1', T0 + 7000)).toBe(0);
    expect(pace.takeUpdate('C1', '1.2', T0 + 9000)).toBe(0);
  });

  test('of two waits the longer one counts, and a wait that is over is forgotten', () => {
    const pace = createPace();
    pace.hold('posts', 'C1', T0 + 7000);
    pace.hold('posts', 'C1', T0 + 2000);
    expect(pace.nextAt('C1', T0)).toBe(T0 + 7000);
    expect(pace.nextAt('C1', T0 + 8000)).toBe(T0 + 8000);
    pace.hold('posts', 'C1', T0 + 8500);
    expect(pace.nextAt('C1', T0 + 8000)).toBe(T0 + 8500);
  });

  test('one shorter than the channel’s own second changes nothing', () => {
    const pace = createPace();
    pace.takePost('C1', T0);
    pace.hold('posts', 'C1', T0 + 300);
    expect(pace.nextAt('C1', T0 + 100)).toBe(T0 + 1000);
  });
});
