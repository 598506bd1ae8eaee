import { describe, expect, test } from 'vitest';
import { wantedBells } from '../../src/flow/bells.ts';
import { holdsOf, nextReadingDue } from '../../src/flow/holds.ts';
import { ringingBells } from '../../src/flow/ringing.ts';
import { closingAt, closings, trendsAt } from '../../src/flow/trend.ts';
import type { Reading } from '../../src/model/shift.ts';
import { HOUR, MINUTE } from '../../src/model/time.ts';
import { type Play, ready } from './harness.ts';
import { aPack, t } from './pack.ts';

const clock = (at: number) => new Date(at).toISOString().slice(11, 16);
const lastOf = (play: Play): Reading => {
  const last = play.state.readings.at(-1);
  if (!last) throw new Error('no reading');
  return last;
};
const read = (
  play: Play,
  time: string,
  steelC: number,
  place = '',
  more: { rhPct?: number; airC?: number } = {},
) => play.at(time).do({ type: 'take-reading', airC: 20, rhPct: 60, steelC, place, ...more }, 'max');
const bellsOf = (play: Play, kind: string) => wantedBells(play.state).filter((bell) => bell.kind === kind);

// Dew point of 20 °C and 60 % is 12.0 °C (Magnus, Alduchov & Eskridge 1996): the margin is the steel less 12.0. The
// harness took a reading at 07:00 with the steel at 20 °C, at no named place.

/** Steel from 20 to 18 °C in an hour: 2 °C an hour, 6 − 3 °C left, so gone an hour and a half after 08:00. */
function falling(): Play {
  const play = ready();
  read(play, '08:00', 18);
  return play;
}

describe('trend', () => {
  test('CO4 two readings an hour apart give rate and time', () => {
    const play = falling();
    const [margin] = trendsAt(play.state, lastOf(play));
    expect(margin).toMatchObject({ limit: 'margin', allowed: 3, trend: { taken: { length: 2 } } });
    expect(margin?.trend.perHour).toBeCloseTo(-2, 6);
    expect(clock(margin?.trend.goneAt ?? 0)).toBe('09:30');
  });

  test('CO4 one reading, and readings nearer than ten minutes, give none', () => {
    const play = ready();
    expect(trendsAt(play.state, lastOf(play))).toEqual([]);
    read(play, '07:09', 19);
    expect(trendsAt(play.state, lastOf(play))).toEqual([]);
  });

  test('CO4 the strictest limit of the site and of all coatings of the day counts', () => {
    const play = ready({}, aPack({ policy: { marginMinC: 4 } }));
    read(play, '08:00', 18);
    expect(clock(closingAt(play.state, lastOf(play))?.goneAt ?? 0)).toBe('09:00');
  });

  test('CO4 rising humidity meets its own limit', () => {
    // The steel warms along, so the margin holds; 60 to 72 % in two hours leaves 13 % to 85 %.
    const play = ready();
    read(play, '09:00', 30, '', { rhPct: 72 });
    const closing = closingAt(play.state, lastOf(play));
    expect(closing).toMatchObject({ limit: 'rh-max', allowed: 85 });
    expect(clock(closing?.goneAt ?? 0)).toBe('11:10');
  });

  test('CO4 what runs out first counts', () => {
    const play = ready();
    read(play, '09:00', 19, '', { rhPct: 72 });
    expect(closingAt(play.state, lastOf(play))?.limit).toBe('margin');
  });

  test('CO4 a reading taken back is out of the trend', () => {
    const play = falling();
    play.do({ type: 'void-reading', takenAt: t('08:00'), reason: 'Wrong steel' }, 'max');
    expect(closings(play.state)).toEqual([]);
  });

  test('CO4 another place is another trend; case and spaces are not another place', () => {
    const play = ready();
    read(play, '07:30', 20, 'Span 2, shade');
    expect(trendsAt(play.state, lastOf(play))).toEqual([]);
    read(play, '08:30', 18, ' span 2,  SHADE ');
    expect(trendsAt(play.state, lastOf(play))[0]?.trend.taken.map(({ at }) => clock(at))).toEqual([
      '07:30',
      '08:30',
    ]);
  });

  test('CO5 a sunny spot measured later clears no shady one', () => {
    const play = ready();
    read(play, '07:30', 20, 'shade');
    read(play, '08:30', 18, 'shade');
    read(play, '08:40', 30, 'sun');
    expect(closingAt(play.state, lastOf(play))).toBeNull();
    expect(closings(play.state).map(({ last, goneAt }) => [last.place, clock(goneAt)])).toEqual([
      ['shade', '10:00'],
    ]);
    read(play, '08:50', 20, 'shade');
    expect(closings(play.state)).toEqual([]);
  });
});

describe('next reading', () => {
  test('CO6 half of the time that is left', () => {
    const play = falling();
    expect(clock(nextReadingDue(play.state, lastOf(play)))).toBe('08:45');
    expect(holdsOf(play.state, t('08:45'))).toEqual([]);
    expect(holdsOf(play.state, t('08:46')).map(({ kind }) => kind)).toEqual(['old-reading']);
  });

  test('CO6 never under a quarter of an hour', () => {
    const play = ready();
    read(play, '07:30', 15.3);
    expect(nextReadingDue(play.state, lastOf(play)) - lastOf(play).at).toBe(15 * MINUTE);
  });

  test('CO6 never later than the site asks for', () => {
    const slow = ready({}, aPack({ policy: { readingEveryMinutes: 30 } }));
    read(slow, '08:00', 18);
    expect(nextReadingDue(slow.state, lastOf(slow))).toBe(t('08:30'));
    const steady = ready();
    read(steady, '08:00', 20);
    expect(nextReadingDue(steady.state, lastOf(steady)) - t('08:00')).toBe(4 * HOUR);
  });

  test('CO6 the bell for it rings then', () => {
    const [ring] = falling()
      .ringUntil('09:00')
      .filter(({ kind }) => kind === 'reading-due');
    expect(ring && clock(ring.at)).toBe('08:45');
  });
});

describe('the bell before the hold', () => {
  test('CO7 half an hour before, once, for crew and foreman', () => {
    const play = falling();
    const rang = play.ringUntil('10:30').filter(({ kind }) => kind === 'margin-closing');
    expect(rang.map(({ at, level, late }) => [clock(at), level, late])).toEqual([
      ['09:00', 'foreman', false],
    ]);
    expect(ringingBells(play.state, play.now).map(({ state }) => state.kind)).not.toContain('margin-closing');
  });

  test('CO7 at once when less than that is left, and not late', () => {
    const play = ready();
    read(play, '08:00', 15.5);
    expect(clock(closingAt(play.state, lastOf(play))?.goneAt ?? 0)).toBe('08:06');
    const rang = play.ring().filter(({ kind }) => kind === 'margin-closing');
    expect(rang).toMatchObject([{ level: 'foreman', late: false }]);
  });

  test('CO7 a new reading there takes it away or puts it anew', () => {
    const play = falling();
    read(play, '08:30', 19.5);
    expect(bellsOf(play, 'margin-closing')).toEqual([]);
    read(play, '09:00', 17);
    expect(bellsOf(play, 'margin-closing')).toHaveLength(1);
  });

  test('CO7 not with every line flushed, nor after the shift', () => {
    const play = falling();
    play.mix();
    expect(bellsOf(play, 'margin-closing')).toHaveLength(1);
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    expect(bellsOf(play, 'margin-closing')).toEqual([]);
    const evening = ready();
    read(evening, '14:00', 20);
    read(evening, '15:30', 17.05);
    expect(clock(closingAt(evening.state, lastOf(evening))?.goneAt ?? 0) > '16:30').toBe(true);
    expect(bellsOf(evening, 'margin-closing')).toEqual([]);
  });

  test('CO7 a limit missed already is a hold, not a warning', () => {
    const play = ready();
    read(play, '08:00', 14);
    expect(holdsOf(play.state, play.now)).toMatchObject([{ kind: 'climate', limit: 'margin' }]);
    expect(bellsOf(play, 'margin-closing')).toEqual([]);
  });
});

describe('height', () => {
  test('CO8 the same wet bulb is wetter air on a mountain', () => {
    const humidity = (altitudeM: number) => {
      const pack = aPack();
      const play = ready({}, { ...pack, site: { ...pack.site, altitudeM } });
      play.at('08:00').do({ type: 'take-reading', airC: 20, wetC: 15, steelC: 20 }, 'max');
      return lastOf(play).rhPct;
    };
    // ASHRAE 2017 by psychrolib, at standard pressure: 58.9 % at the sea, 61.3 % at 1500 m.
    expect(humidity(0)).toBeCloseTo(58.9, 0);
    expect(humidity(1500)).toBeCloseTo(61.3, 0);
  });
});
