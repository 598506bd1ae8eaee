import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clockReport, WARMER_BY_C } from '../../src/flow/clock-report.ts';
import { rigClocks, usedUp } from '../../src/flow/clocks.ts';
import { MINUTE } from '../../src/model/time.ts';
import { mixed, type Play, ready } from './harness.ts';
import { t } from './pack.ts';

const RIG = 'rig-1';
const report = (play: Play, now = play.now) => {
  const clock = rigClocks(play.state, RIG)[0];
  const found = clock && clockReport(play.state.day, RIG, clock, now);
  if (!found) throw new Error('no clock');
  return found;
};

describe('report of a clock', () => {
  test('PL16 at 09:00: half used, the three times, and what 5 °C more from now on would make of them', () => {
    const found = report(mixed(), t('09:00'));
    expect(found.used).toBeCloseTo(0.5, 9);
    expect(found.nowC).toBe(20);
    expect(found.lifeNow).toEqual({ minutes: 120, basis: 'point' });
    expect(found.clock.times).toMatchObject({ useBy: t('09:30'), deadAt: t('10:00') });
    // 25 °C by hand: 120 × 0.5^((1/293.15 − 1/298.15) ÷ (1/293.15 − 1/303.15)) = 84.2 min; half of it is 42.1 min.
    const life = 120 * 0.5 ** ((1 / 293.15 - 1 / 298.15) / (1 / 293.15 - 1 / 303.15));
    expect(((found.ifWarmer?.deadAt ?? 0) - t('09:00')) / MINUTE).toBeCloseTo(life / 2, 3);
    expect(((found.ifWarmer?.useBy ?? 0) - t('09:00')) / MINUTE).toBeCloseTo(life / 4, 3);
  });

  test('PL16 it is what a reading 5 °C warmer would make of the times, whatever came before', () => {
    const c = fc.integer({ min: 10, max: 60 });
    fc.assert(
      fc.property(
        c,
        fc.array(fc.record({ c, after: fc.integer({ min: 1, max: 30 }) })),
        (paintC, readings) => {
          const play = ready().at('08:00');
          play.mix({ paintC });
          for (const one of readings.slice(0, 4)) {
            play.now += one.after * MINUTE;
            play.do({ type: 'pot-temperature', rig: RIG, c: one.c }, 'max');
          }
          play.now += 7 * MINUTE;
          const { ifWarmer, nowC, used, clock } = report(play);
          expect(used).toBe(usedUp(play.state.day, clock, play.now));
          play.do({ type: 'pot-temperature', rig: RIG, c: nowC + WARMER_BY_C }, 'max');
          expect(rigClocks(play.state, RIG)[0]?.times).toEqual(ifWarmer);
          for (const time of ['useBy', 'startFlushBy', 'deadAt'] as const)
            expect(ifWarmer?.[time]).toBeLessThanOrEqual(clock.times[time]);
        },
      ),
      { seed: 20, numRuns: 60 },
    );
  });

  test('PL16 in a stand in the sun the warming to come is 5 °C warmer as well', () => {
    const play = mixed({ weather: { airC: 25, rhPct: 60, steelC: 20, sun: true } }).at('08:05');
    play.do({ type: 'pause', rig: RIG }, 'pia');
    const { ifWarmer, clock } = report(play);
    expect(ifWarmer?.deadAt).toBeLessThan(clock.times.deadAt);
    expect(clock.times.deadAt - (ifWarmer?.deadAt ?? 0)).toBeLessThan(10 * MINUTE);
  });

  test('PL16 paint too hot to be asked about has no such answer, and the rest of the report stands', () => {
    const play = mixed().at('08:05');
    play.do({ type: 'hose-temperature', rig: RIG, c: 80 }, 'pia');
    // Felt warm on top of a measured 80 °C, with the most a site may add.
    play.do({ type: 'hose-warm', rig: RIG }, 'pia');
    expect(report(play).nowC).toBe(95);
    expect(report(play).ifWarmer).not.toBeNull();
    const [clock] = rigClocks(play.state, RIG);
    const hot = clock && { ...clock, mixed: { ...clock.mixed, history: [{ at: t('08:00'), c: 118 }] } };
    expect(hot && clockReport(play.state.day, RIG, hot, play.now)).toMatchObject({
      nowC: 118,
      ifWarmer: null,
    });
  });

  test('PL15 a sheet with one line: the clock takes the early bound, the report has both', () => {
    const play = ready().at('08:00');
    // 180 min at 20 °C; at 30 °C 2.6 times faster is 69.2 min, 1.7 times 105.9 min.
    play.mix({ coating: 'finish', litres: 7, aL: 6, bL: 1, paintC: 30 });
    const { lifeNow, clock } = report(play);
    expect(lifeNow.basis).toBe('one-point');
    expect(lifeNow.minutes).toBeCloseTo(180 / 2.6, 6);
    expect(lifeNow.lateMinutes).toBeCloseTo(180 / 1.7, 6);
    expect(clock.times.bases).toEqual(['one-point']);
    expect((clock.times.deadAt - t('08:00')) / MINUTE).toBeCloseTo(180 / 2.6, 3);
  });

  test('PL15 colder than the sheet is held and said, never credited', () => {
    const play = ready().at('08:00');
    play.mix({ paintC: 8 });
    const { lifeNow, clock } = report(play);
    expect(lifeNow).toEqual({ minutes: 120, basis: 'colder-held' });
    expect(clock.times.bases).toEqual(['colder-held']);
    expect(clock.times.deadAt).toBe(t('10:00'));
  });

  test('PL16 a coating without a pot life has no report', () => {
    const play = mixed();
    const [clock] = rigClocks(play.state, RIG);
    const onePack = clock && { ...clock, mixed: { ...clock.mixed, coating: 'one-pack' } };
    expect(onePack && clockReport(play.state.day, RIG, onePack, play.now)).toBeNull();
  });
});
