import { describe, expect, test } from 'vitest';
import { createVisits } from '../../adapters/board/session.ts';
import { createPinAttempts } from '../../adapters/host/pin-attempts.ts';
import { noted, START } from './fakes.ts';

const MIN = 60_000;
function clocked() {
  const clock = { at: START, now: () => clock.at };
  return clock;
}

describe('visits', () => {
  test('last as long as somebody uses them, not longer', () => {
    const clock = clocked();
    const visits = createVisits({ clock, minutes: 10 });
    const { token } = visits.logIn(null, 'ada');
    clock.at += 9 * MIN;
    expect(visits.find(token, true)?.person).toBe('ada');
    clock.at += 9 * MIN;
    expect(visits.find(token, false)?.person).toBe('ada');
    clock.at += MIN;
    expect(visits.find(token, true)).toBeNull();
  });

  test('with a name end half an hour after the PIN, used or not; without one they have no such end', () => {
    const clock = clocked();
    const visits = createVisits({ clock, minutes: 10 });
    const ada = visits.logIn(null, 'ada');
    const nameless = visits.open();
    for (const minute of [9, 18, 27]) {
      clock.at = START + minute * MIN;
      expect(visits.find(ada.token, true)?.person).toBe('ada');
      expect(visits.find(nameless.token, true)).not.toBeNull();
    }
    clock.at = START + 30 * MIN;
    expect(visits.find(ada.token, true)).toBeNull();
    expect(visits.find(nameless.token, true)).not.toBeNull();
  });

  test('get a new, long and different token at every log-in, and the old one is dead', () => {
    const visits = createVisits({ clock: clocked(), minutes: 10 });
    const first = visits.open();
    const second = visits.logIn(first, 'ada');
    expect(Buffer.from(second.token, 'base64url')).toHaveLength(32);
    expect(second.token).not.toBe(first.token);
    expect(visits.find(first.token, true)).toBeNull();
  });

  test('keep what waits across the log-in, once, and not for ever', () => {
    const clock = clocked();
    const visits = createVisits({ clock, minutes: 10 });
    const visit = visits.open();
    const what = {
      kind: 'do',
      press: { command: { type: 'issue-briefing' }, commandId: 'press-0001', shift: null, back: '/' },
    } as const;
    const id = visits.wait(visit, what);
    const later = visits.logIn(visit, 'ada');
    expect(visits.waiting(later, id)).toEqual(what);
    expect(visits.takeWaiting(later, id)).toEqual(what);
    expect(visits.takeWaiting(later, id)).toBeNull();
    expect(visits.takeWaiting(later, undefined)).toBeNull();
    const old = visits.wait(later, what);
    for (let minute = 0; minute < 12; minute += 1) {
      clock.at += MIN;
      visits.find(later.token, true);
    }
    expect(visits.takeWaiting(later, old)).toBeNull();
  });

  test('belong to one browser: another visit does not find what waits', () => {
    const visits = createVisits({ clock: clocked(), minutes: 10 });
    const id = visits.wait(visits.open(), {
      kind: 'do',
      press: { command: { type: 'issue-briefing' }, commandId: 'press-0001', shift: null, back: '/' },
    });
    expect(visits.waiting(visits.open(), id)).toBeNull();
  });

  test('say each thing once; a repeat does not replace the first answer', () => {
    const visits = createVisits({ clock: clocked(), minutes: 10 });
    const visit = visits.open();
    visits.say(visit, 'press-1', noted('first'), { keepFirst: false });
    visits.say(visit, 'press-1', noted('again'), { keepFirst: true });
    expect(visits.takeSaid(visit).map(({ summary }) => summary)).toEqual(['first']);
    expect(visits.takeSaid(visit)).toEqual([]);
  });

  test('a flood of nameless ones logs nobody out', () => {
    const clock = clocked();
    const visits = createVisits({ clock, minutes: 10 });
    const ada = visits.logIn(null, 'ada');
    const flood = Array.from({ length: 600 }, () => visits.open());
    expect(visits.find(ada.token, true)?.person).toBe('ada');
    expect(visits.find(flood[0]?.token, true)).toBeNull();
    expect(visits.find(flood[599]?.token, true)).not.toBeNull();
  });
});

describe('PIN attempts', () => {
  const left = (attempt: ReturnType<ReturnType<typeof createPinAttempts>['begin']>) =>
    attempt.kind === 'go' ? attempt.left : attempt;

  test('five wrong ones close a name for five minutes after the last, and no other name', () => {
    const clock = clocked();
    const attempts = createPinAttempts(clock);
    const tries = [0, 1, 2, 3, 4].map(() => {
      clock.at += MIN;
      return left(attempts.begin('ada'));
    });
    expect(tries).toEqual([4, 3, 2, 1, 0]);
    const until = clock.at + 5 * MIN;
    expect(attempts.begin('ada')).toEqual({ kind: 'wait', who: 'person', until });
    expect(left(attempts.begin('mira'))).toBe(4);
    clock.at = until - 1;
    expect(attempts.begin('ada').kind).toBe('wait');
    clock.at = until;
    expect(left(attempts.begin('ada'))).toBe(4);
  });

  test('a right one clears the count', () => {
    const attempts = createPinAttempts(clocked());
    for (let turn = 0; turn < 20; turn += 1) {
      const attempt = attempts.begin('ada');
      if (attempt.kind !== 'go') throw new Error('closed');
      attempt.right();
    }
    expect(left(attempts.begin('ada'))).toBe(4);
  });

  test('many at once get no extra tries', () => {
    const attempts = createPinAttempts(clocked());
    const kinds = Array.from({ length: 8 }, () => attempts.begin('ada').kind);
    expect(kinds.filter((kind) => kind === 'go')).toHaveLength(5);
  });

  test('guesses at invented names are refused and count nowhere', () => {
    const people = ['ada', 'mira'];
    const attempts = createPinAttempts(clocked(), (person) => people.includes(person));
    for (let one = 0; one < 100; one += 1) {
      expect(attempts.begin(`person-${one}`)).toEqual({ kind: 'unknown', left: 4 });
    }
    expect(attempts.begin('__proto__').kind).toBe('unknown');
    expect(left(attempts.begin('ada'))).toBe(4);
    expect(left(attempts.begin('ada'))).toBe(3);
  });

  test('thirty wrong ones over many names close the board until the first is five minutes old', () => {
    const clock = clocked();
    const attempts = createPinAttempts(clock);
    for (let one = 0; one < 30; one += 1) attempts.begin(`person-${one}`);
    expect(attempts.begin('ada')).toEqual({ kind: 'wait', who: 'board', until: START + 5 * MIN });
    clock.at = START + 5 * MIN;
    expect(attempts.begin('ada').kind).toBe('go');
  });
});
