import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Backstop, backstopDay, confirmedFlushes, wantedBackstops } from '../../src/chat/backstop.ts';
import { mergeBackstops } from '../../src/chat/backstop-merge.ts';
import { lettersOf, refIn } from '../../src/chat/backstop-ref.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { clockTime, MINUTE } from '../../src/model/time.ts';
import { mixed, type Play, posted, ready } from '../flow/harness.ts';
import { aDay, aJob, aPack, t } from '../flow/pack.ts';
import { languages, textsIn } from './site.ts';

const wanted = (play: Play, now = play.now) => wantedBackstops(play.state, now, textsIn('en'));
const only = (play: Play): Backstop => {
  const [one, ...others] = wanted(play);
  if (!one || others.length > 0) throw new Error(`this test wants one notice, not ${others.length + 1}`);
  return one;
};
const time = (at: number) => new Date(at).toISOString().slice(11, 19);

describe('when the notice comes', () => {
  // By hand: hose 10 mm x 30 m is 2.356 L at 2 L/min; 8 min fixed, 3 + 2 volumes take 5.89 min; dead at 10:00.
  test('with the bell that says start the flush, when there is no time to spare', () => {
    const play = mixed();
    expect(time(only(play).postAt)).toBe('09:46:06');
    const bell = wantedBells(play.state).find(({ kind }) => kind === 'start-flush');
    expect(Math.floor((bell?.dueAt ?? 0) / 1000)).toBe(only(play).postAt / 1000);
  });

  // By hand: 3 min fixed + 1.178 min of primary and 11.78 min of secondary flush: start by 09:44:02. Use by 09:30,
  // confirmed 4.178 min later, 11 min to be clear of it: 09:45:10. Paint can be got out if the start is by 09:55:49.
  test('later by what keeps it clear of the usual confirm, when the paint can still be got out then', () => {
    const policy = { lineVolumesPrimary: 1, lineVolumesSecondary: 10, flushFixedMinutes: 3 };
    const play = mixed({}, aPack({ policy }));
    expect(time(rigClocks(play.state, 'rig-1')[0]?.times.startFlushBy ?? 0)).toBe('09:44:02');
    expect(time(only(play).postAt)).toBe('09:45:10');
  });

  test('by the older paint in the line while the pot is fresh', () => {
    const play = mixed().at('08:40');
    const before = only(play);
    play.do({ type: 'pot-empty', rig: 'rig-1' }, 'max');
    play.mix();
    expect(only(play)).toEqual(before);
  });

  test('by the pot, once the time of the line has gone by', () => {
    const play = mixed().at('08:40');
    play.do({ type: 'pot-empty', rig: 'rig-1' }, 'max');
    play.mix();
    play.at('09:47');
    expect(only(play).ref).toMatch(/^0512-rig-1-2/);
    expect(time(only(play).postAt)).toBe('10:26:06');
  });

  test('two minutes after the news that leaves no time, and not again with every look', () => {
    const play = mixed().at('09:20');
    play.do({ type: 'hose-temperature', rig: 'rig-1', c: 60 }, 'pia');
    const clock = rigClocks(play.state, 'rig-1')[0];
    expect(clock?.times.startFlushBy).toBeLessThan(play.now);
    expect(time(only(play).postAt)).toBe('09:22:00');
    expect(wanted(play, play.now + MINUTE)).toEqual(wanted(play));
    expect(wanted(play, play.now + 2 * MINUTE)).toEqual([]);
  });

  test('never before the bell "start the flush", always while a flush begun then has the paint out in time', () => {
    const minutes = fc.integer({ min: 3, max: 30 });
    const volumes = fc.integer({ min: 1, max: 10 });
    fc.assert(
      fc.property(
        minutes,
        volumes,
        volumes,
        fc.integer({ min: 25, max: 60 }),
        (fixed, one, two, reservePct) => {
          const policy = {
            flushFixedMinutes: fixed,
            lineVolumesPrimary: one,
            lineVolumesSecondary: two,
            reservePct,
          };
          const play = mixed({}, aPack({ policy }));
          const { startFlushBy, deadAt } = rigClocks(play.state, 'rig-1')[0]?.times ?? {
            startFlushBy: 0,
            deadAt: 0,
          };
          const primary = (fixed + (one * 2.356_195) / 2) * MINUTE;
          const { postAt } = only(play);
          expect(postAt).toBeGreaterThan(startFlushBy - 1000);
          expect(postAt + primary).toBeLessThanOrEqual(deadAt);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('none is wanted', () => {
  test('without mixed paint', () => expect(wanted(ready())).toEqual([]));

  test('for a one-pack, which does not go off in the line', () => {
    const play = ready({ jobs: [aJob({ coating: 'one-pack', coat: 'finish' })] }).at('08:00');
    play.mix({ coating: 'one-pack' });
    expect(play.rig().line).not.toBeNull();
    expect(wanted(play)).toEqual([]);
  });

  test('from the confirmed primary flush on, not from the start of the flush', () => {
    const play = mixed().at('09:00');
    const before = only(play);
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('suction-out');
    expect(only(play)).toEqual(before);
    play.flushTo('primary-flush');
    expect(wanted(play)).toEqual([]);
    expect(confirmedFlushes(play.state)).toEqual([
      { rig: 'rig-1', at: play.now, time: clockTime(play.now, 'Etc/UTC'), person: 'Pia' },
    ]);
  });

  test('once its time has come', () => {
    const play = mixed();
    const { postAt } = only(play);
    expect(wanted(play, postAt - 1)).toHaveLength(1);
    expect(wanted(play, postAt)).toEqual([]);
  });

  test('for a batch that was taken back as never in the rig', () => {
    const play = mixed().at('08:05');
    play.do({ type: 'void-batch', rig: 'rig-1', batch: 'rig-1-1', reason: 'wrong rig' }, 'finn');
    expect(wanted(play)).toEqual([]);
    expect(confirmedFlushes(play.state)).toEqual([]);
  });
});

describe('what counts as confirmed', () => {
  test('not a primary flush that was left out: the paint is still in, and so is the notice', () => {
    const play = mixed().at('09:00');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('suction-out');
    const flush = play.rig().flush?.id ?? '';
    play.do({ type: 'skip-step', rig: 'rig-1', flush, step: 'primary-flush', reason: 'no solvent' }, 'pia');
    play.flushTo();
    expect(play.rig().flush).toBeNull();
    expect(wanted(play)).toHaveLength(1);
    expect(confirmedFlushes(play.state)).toEqual([]);
  });

  test('not for a batch mixed before the flush and logged after it: that is in the rig', () => {
    const play = mixed().at('09:00');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    play.mix({ mixedAt: t('08:30') });
    expect(play.rig().line?.mixedAt).toBe(t('08:30'));
    expect(confirmedFlushes(play.state)).toEqual([]);
  });
});

describe('the ref', () => {
  test('is another one when the deadline moves', () => {
    const play = mixed();
    const { ref } = only(play);
    play.at('08:30').do({ type: 'hose-temperature', rig: 'rig-1', c: 25 }, 'pia');
    expect(only(play).ref).not.toBe(ref);
    expect(only(play).ref).toMatch(/^0512-rig-1-1[a-z]+$/);
  });

  test('has letters that differ for every minute of a week', () => {
    expect([0, 25, 26, 27, 701, 702].map(lettersOf)).toEqual(['a', 'z', 'aa', 'ab', 'zz', 'aaa']);
    expect(new Set(Array.from({ length: 10_080 }, (_, n) => lettersOf(n))).size).toBe(10_080);
  });

  test.each(languages)('is found again in the notice in %s', (language) => {
    for (const one of wantedBackstops(mixed().state, t('08:00'), textsIn(language)))
      expect(refIn(one.text)).toBe(one.ref);
  });

  test.each(['call 112', 'on 2026-05-12 at 09:46', 'pump rig-1-2a', '0512-rig-1-1', 'x0512-rig-1-1a', ''])(
    'is not seen in "%s"',
    (text) => expect(refIn(text)).toBeNull(),
  );
});

describe('what the notice says', () => {
  test('is enough by itself, and conditional', () => {
    expect(only(mixed()).text).toBe(
      'Backstop notice, ref 0512-rig-1-1dc: if nobody has confirmed the flush of Rig One by 09:46: stop, lock the ' +
        'trigger, power off, relieve the pressure, tip off, start the flush now. If the flush is running, carry on ' +
        'with it. Paint is dead at 10:00. If it no longer moves: leave it closed and locked, tag the rig out; a set ' +
        'line can hold pressure. Emergency: 112. If the flush is already confirmed, ignore this.',
    );
  });

  test.each(languages)('has rig, both times and the emergency number in %s', (language) => {
    const [one] = wantedBackstops(mixed().state, t('08:00'), textsIn(language));
    for (const part of ['0512-rig-1-1dc', 'Rig One', '09:46', '10:00', '112'])
      expect(one?.text).toContain(part);
  });

  test('names the day when its time is after midnight', () => {
    const play = posted({ start: '20:00', end: '06:00' }).at('22:30');
    play.ring();
    play.mix();
    expect(only(play).text).toContain('by 2026-05-13 00:16');
    expect(refIn(only(play).text)).toBe(only(play).ref);
  });
});

describe('several in one', () => {
  const finish = aJob({ area: 'Rail', coating: 'finish', coat: 'finish', dftUm: 60, rig: 'rig-2' });
  function both(): readonly Backstop[] {
    const play = mixed(aDay({ jobs: [aJob(), { ...finish, sprayers: ['lou'], mixers: ['lou'] }] }).entry);
    play.checkRig('rig-2');
    play.do(
      { type: 'mix-batch', rig: 'rig-2', coating: 'finish', litres: 7, paintC: 20, pot: 'fresh' },
      'lou',
    );
    return wanted(play);
  }

  test.each(languages)('come at the earliest time with the time of each, in %s', (language) => {
    const [first, second] = both();
    if (!first || !second) throw new Error('this test wants two notices');
    const one = mergeBackstops([second, first], '112', textsIn(language));
    expect(one.postAt).toBe(first.postAt);
    expect(one.rigs).toEqual([...first.rigs, ...second.rigs]);
    expect(refIn(one.text)).toBe(one.ref);
    for (const { name, by, deadAt } of one.rigs)
      for (const part of [name, by, deadAt]) expect(one.text).toContain(part);
    expect(one.text).toContain('112');
  });

  test('have a ref by what is in them, in whatever order', () => {
    const [first, second] = both();
    if (!first || !second) throw new Error('this test wants two notices');
    const ref = (several: readonly Backstop[]) => mergeBackstops(several, '112', textsIn('en')).ref;
    expect(ref([first, second])).toBe(ref([second, first]));
    expect(ref([first, { ...second, ref: '0512-rig-2-2a' }])).not.toBe(ref([first, second]));
    expect(mergeBackstops([first], '112', textsIn('en'))).toBe(first);
    expect(() => mergeBackstops([], '112', textsIn('en'))).toThrow('no backstop was given');
  });
});

test('what a shift wants comes with its date and its emergency number', () => {
  const play = mixed();
  expect(backstopDay(play.state, play.now, textsIn('en'))).toMatchObject({
    date: '2026-05-12',
    wanted: [{ rig: 'rig-1' }],
    confirmed: [],
    call: '112',
  });
});
