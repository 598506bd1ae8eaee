import { describe, expect, test } from 'vitest';
import { rigClocks, usedUp } from '../../src/flow/clocks.ts';
import { tempAt } from '../../src/flow/mixed-history.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { asCounted, estimatedC } from '../../src/flow/standing.ts';
import { MINUTE } from '../../src/model/time.ts';
import { hoseSolAirC, hoseTimeConstantMinutes, stalledHoseC } from '../../src/trade/sun.ts';
import { mixed, type Play } from './harness.ts';
import { aDay, t } from './pack.ts';

const RIG = 'rig-1';
const sunny = { weather: { airC: 25, rhPct: 60, steelC: 20, sun: true } };
const line = (play: Play) => {
  const clock = rigClocks(play.state, RIG).find(({ where }) => where === 'line');
  if (!clock) throw new Error('no line clock');
  return clock;
};
const paint = (play: Play) => {
  const inside = play.rig().line;
  if (!inside) throw new Error('no paint in the line');
  return inside;
};
const countedAt = (play: Play, time: string) => tempAt(asCounted(paint(play)), t(time));
const pausedAt = (time: string, entry: Parameters<typeof mixed>[0] = sunny) => {
  const play = mixed(entry).at(time);
  play.do({ type: 'pause', rig: RIG }, 'pia');
  return play;
};
const hose = (c: number) => ({ type: 'hose-temperature', rig: RIG, c }) as const;
const dark = { startC: 20, airC: 25, colour: 'dark', boreMm: 10 } as const;

describe('a line that stands in the sun', () => {
  test('PL12 it is counted as warming from the pause on, and its times come earlier', () => {
    const shade = pausedAt('08:10', {});
    const play = pausedAt('08:10');
    expect(countedAt(play, '08:09')).toBe(20);
    for (const [time, minutes] of [
      ['08:20', 10],
      ['08:40', 30],
      ['09:00', 50],
    ] as const) {
      const counted = countedAt(play, time);
      expect(counted).toBeGreaterThanOrEqual(stalledHoseC({ ...dark, minutes }));
      expect(counted).toBeLessThanOrEqual(stalledHoseC({ ...dark, minutes: minutes + 2 }));
    }
    // In the end as warm as it can get, at once once 2 % are left.
    expect(countedAt(play, '12:00')).toBe(hoseSolAirC(25, 'dark'));
    for (const time of ['useBy', 'startFlushBy', 'deadAt'] as const)
      expect(line(play).times[time]).toBeLessThan(line(shade).times[time]);
  });

  test('PL12 the dead time against a sum in steps of a second, written independently', () => {
    const play = pausedAt('08:10');
    const life = (c: number) => {
      const between = 120 * 0.5 ** ((1 / 293.15 - 1 / (c + 273.15)) / (1 / 293.15 - 1 / 303.15));
      return c <= 20 ? 120 : c <= 30 ? between : Math.min(between, 60 * 0.5 ** ((c - 30) / 10));
    };
    let used = 10 / 120;
    let second = 0;
    for (; used < 1; second += 1) {
      // The heat balance of the hose solved for each second: 25 + 0.9 × 1000 × 2/π ÷ 17 = 58.70 °C, 14.7 min.
      const towards = 25 + (900 * 2) / Math.PI / 17;
      const c = towards + (20 - towards) * Math.exp(-second / 882.35);
      used += 1 / 60 / life(c);
    }
    const exact = t('08:10') + second * 1000;
    const { deadAt } = line(play).times;
    // The clock counts each two minutes as warm as their end: a little early, never late.
    expect(deadAt).toBeLessThanOrEqual(exact);
    expect(exact - deadAt).toBeLessThan(2 * MINUTE);
  });

  test('PL12 a light hose warms less, a thin one sooner, warmer air more', () => {
    const times = (change: object, entry = sunny) => {
      const play = mixed(entry);
      const [rig] = play.pack.rigs;
      if (!rig) throw new Error('no rig');
      play.pack = { ...play.pack, rigs: [{ ...rig, ...change }, ...play.pack.rigs.slice(1)] };
      play.do({ ...aDay({ ...entry, notes: 'again' }) });
      play.at('08:10').do({ type: 'pause', rig: RIG }, 'pia');
      return line(play).times.deadAt;
    };
    const plain = times({});
    expect(times({ hoseColour: 'light' })).toBeGreaterThan(plain);
    const whip = [
      { boreMm: 10, lengthM: 29 },
      { boreMm: 6, lengthM: 1 },
    ];
    expect(times({ hoses: whip })).toBeLessThan(plain);
    expect(times({}, { weather: { ...sunny.weather, airC: 35 } })).toBeLessThan(plain);
  });

  test('PL12 no sun on the day, no estimate; a pot has none either', () => {
    expect(paint(pausedAt('08:10', {})).sun).toBeUndefined();
    const play = pausedAt('08:10');
    const pot = rigClocks(play.state, RIG).find(({ where }) => where === 'pot');
    expect(play.rig().pot?.sun).toBeUndefined();
    expect(pot?.times.deadAt ?? t('10:00')).toBe(t('10:00'));
  });

  test('PL12 what is known warmer than the estimate counts', () => {
    const play = mixed(sunny).at('08:05');
    play.do(hose(70), 'pia');
    play.at('08:10').do({ type: 'pause', rig: RIG }, 'pia');
    expect(countedAt(play, '08:30')).toBe(70);
    expect(estimatedC(paint(play), t('08:30'))).toBeNull();
  });

  test('PL12 the bells are known at the pause, ring by the estimate and are not late', () => {
    const play = pausedAt('08:10');
    const { useBy, startFlushBy } = line(play).times;
    expect(nextRingAt(play.state, play.now)).toBeLessThanOrEqual(useBy);
    const rang = play.ringUntil(startFlushBy);
    const flush = rang.find(({ kind }) => kind === 'start-flush');
    expect(flush).toMatchObject({ at: startFlushBy, late: false });
    expect(startFlushBy).toBeLessThan(t('09:00'));
  });

  test('PL12 bells that the pause itself makes due ring at once and are not late', () => {
    const play = mixed(sunny).at('09:25');
    play.ring();
    play.do({ type: 'pause', rig: RIG }, 'pia');
    expect(line(play).times.startFlushBy).toBeLessThan(t('09:25'));
    expect(play.ring().find(({ kind }) => kind === 'start-flush')).toMatchObject({ late: false });
  });

  test('PL12 a warmer air reading during the stand warms the estimate, a cooler one does not cool it', () => {
    const play = pausedAt('08:10');
    const before = line(play).times.deadAt;
    play.at('08:15').reading(33, 60, 22);
    expect(countedAt(play, '12:00')).toBe(hoseSolAirC(33, 'dark'));
    const warmer = line(play).times.deadAt;
    expect(warmer).toBeLessThan(before);
    play.at('08:20').reading(18, 60, 22);
    expect(line(play).times.deadAt).toBe(warmer);
  });

  test('PL12 the warmest line of the forecast counts as expected', () => {
    const play = pausedAt('08:10', { ...sunny, forecast: [{ at: '13:00', airC: 31 }] });
    expect(countedAt(play, '12:00')).toBe(hoseSolAirC(31, 'dark'));
  });

  test('PL13 going on ends the warming; what it aged and the warmth it had stay', () => {
    const play = pausedAt('08:10').at('08:20');
    const warm = stalledHoseC({ ...dark, minutes: 10 });
    const used = usedUp(play.state.day, line(play), play.now);
    play.do({ type: 'resume', rig: RIG }, 'pia');
    expect(usedUp(play.state.day, line(play), play.now)).toBeCloseTo(used, 12);
    expect(countedAt(play, '08:25')).toBeCloseTo(warm, 9);
    expect(countedAt(play, '11:00')).toBeCloseTo(warm, 9);
    expect(line(play).times.deadAt).toBeLessThan(line(mixed(sunny)).times.deadAt);
  });

  test('PL13 a cool pot does not cool it, a second stand goes on from where the first ended', () => {
    const play = pausedAt('08:10').at('08:20');
    play.do({ type: 'resume', rig: RIG }, 'pia');
    play.at('08:22').do({ type: 'pot-temperature', rig: RIG, c: 20 }, 'max');
    const warm = stalledHoseC({ ...dark, minutes: 10 });
    expect(countedAt(play, '08:25')).toBeCloseTo(warm, 9);
    play.at('08:30').do({ type: 'pause', rig: RIG }, 'pia');
    expect(paint(play).sun?.at(-1)).toMatchObject({ from: t('08:30'), until: null });
    expect(paint(play).sun?.at(-1)?.startC).toBeCloseTo(warm, 9);
  });

  test('PL14 a hose reading after going on goes before the estimate as well', () => {
    const play = pausedAt('08:10').at('08:40');
    play.do({ type: 'resume', rig: RIG }, 'pia');
    const estimated = line(play).times.deadAt;
    expect(estimated).toBeLessThan(t('09:00'));
    play.at('08:42').do(hose(26), 'pia');
    expect(countedAt(play, '08:30')).toBe(26);
    expect(countedAt(play, '11:00')).toBe(26);
    expect(paint(play).sun).toBeUndefined();
    const shade = pausedAt('08:10', {}).at('08:42');
    shade.do(hose(26), 'pia');
    expect(line(play).times.deadAt).toBeGreaterThan(estimated);
    expect(line(play).times.deadAt).toBeLessThan(line(shade).times.deadAt);
  });

  test('PL14 a reading makes no paint younger than what was known of it', () => {
    const play = mixed(sunny).at('08:05');
    play.do(hose(32), 'pia');
    play.at('08:10').do({ type: 'pause', rig: RIG }, 'pia');
    play.at('08:40').do(hose(20), 'pia');
    expect(countedAt(play, '08:39')).toBe(32);
    expect(countedAt(play, '08:40')).toBe(20);
  });

  test('PL13 a line taken over by a fresh batch is rid of it', () => {
    const play = pausedAt('08:10').at('08:20');
    play.do({ type: 'resume', rig: RIG }, 'pia');
    play.at('08:22').mix();
    play.at('08:45').do({ type: 'line-renewed', rig: RIG, sprayedL: 8 }, 'pia');
    expect(paint(play)).toMatchObject({ batch: 'rig-1-2' });
    expect(line(play).times.deadAt).toBe(t('10:22'));
  });

  test('PL13 posting the day without sun, or taking an air reading back, takes no warmth away', () => {
    const play = pausedAt('08:10');
    play.at('08:15').reading(33, 60, 22);
    const takenAt = play.now;
    const before = line(play).times;
    play.at('08:20').do({ type: 'void-reading', takenAt, reason: 'wrong meter' });
    expect(line(play).times).toEqual(before);
    play.do(aDay({ weather: { ...sunny.weather, sun: false } }));
    expect(line(play).times).toEqual(before);
  });

  test('PL12 sun that is posted during a pause counts from the pause on', () => {
    const play = pausedAt('08:10', {});
    play.at('08:20').do(aDay(sunny));
    expect(line(play).times).toEqual(line(pausedAt('08:10')).times);
    expect(play.rig().line?.notedAt).toBe(t('08:20'));
  });

  test('PL14 a reading well into the stand goes before the estimate, also for what went before', () => {
    const play = pausedAt('08:10').at('08:40');
    expect(hoseTimeConstantMinutes(10)).toBeLessThan(30);
    play.do(hose(28), 'pia');
    const shade = pausedAt('08:10', {}).at('08:40');
    shade.do(hose(28), 'pia');
    expect(countedAt(play, '08:39')).toBe(28);
    expect(countedAt(play, '11:00')).toBe(28);
    // Never later than without the sun: it had 28 °C for a while, not for a moment only.
    expect(line(play).times.deadAt).toBeLessThan(line(shade).times.deadAt);
  });

  test('PL14 a reading hotter than the estimate leaves what is past as estimated and counts on', () => {
    const play = pausedAt('08:10').at('08:40');
    const before = usedUp(play.state.day, line(play), play.now);
    play.do(hose(66), 'pia');
    expect(usedUp(play.state.day, line(play), play.now)).toBeCloseTo(before, 12);
    expect(countedAt(play, '09:00')).toBe(66);
  });

  test('PL14 a reading before the hose had time to warm is where the estimate goes on from', () => {
    const play = pausedAt('08:10').at('08:12');
    play.do(hose(21), 'pia');
    expect(countedAt(play, '08:12')).toBeGreaterThanOrEqual(21);
    expect(countedAt(play, '08:40')).toBeGreaterThanOrEqual(
      stalledHoseC({ ...dark, startC: 21, minutes: 28 }),
    );
    // The next one, later, counts as it is.
    play.at('08:40').do(hose(30), 'pia');
    expect(countedAt(play, '11:00')).toBe(30);
  });

  test('PL14 a hose felt warm is no measurement: the estimate stays, the warmer counts', () => {
    const play = pausedAt('08:10').at('08:40');
    const before = line(play).times.deadAt;
    play.do({ type: 'hose-warm', rig: RIG }, 'pia');
    expect(play.rig().line?.history.at(-1)?.c).toBe(40);
    expect(countedAt(play, '08:40')).toBeGreaterThan(45);
    expect(line(play).times.deadAt).toBeLessThanOrEqual(before);
  });

  test('PL13 starting the flush ends nothing: the paint stands until it is pumped out', () => {
    const play = pausedAt('08:10').at('08:20');
    const before = line(play).times;
    play.do({ type: 'start-flush', rig: RIG }, 'pia');
    expect(line(play).times).toEqual(before);
    play.flushTo('primary-flush');
    expect(rigClocks(play.state, RIG)).toEqual([]);
  });

  test('BA7 a mixing temperature mended warmer warms the stand that began from it', () => {
    const play = pausedAt('08:10').at('08:12');
    play.do({ type: 'mend-mix-temperature', rig: RIG, batch: 'rig-1-1', c: 30 }, 'max');
    expect(countedAt(play, '08:20')).toBeGreaterThanOrEqual(
      stalledHoseC({ ...dark, startC: 30, minutes: 10 }),
    );
  });
});

describe('what mixing, pauses and litres do to the clocks', () => {
  test('PA3 mixing ends no pause: the old paint goes on standing', () => {
    const play = pausedAt('08:10').at('08:15');
    const before = line(play).times.deadAt;
    play.mix();
    expect(play.rig().pausedAt).toBe(t('08:10'));
    expect(line(play).times.deadAt).toBeLessThanOrEqual(before);
    play.at('08:20').do({ type: 'resume', rig: RIG }, 'pia');
    expect(play.rig().pausedAt).toBeNull();
  });

  test('PA3 nothing goes through the gun while it pauses', () => {
    const play = pausedAt('08:10', {}).at('08:15');
    play.mix();
    const through = { type: 'line-renewed', rig: RIG, sprayedL: 8 } as const;
    expect(play.at('09:00').refused(through, 'pia')).toMatchObject({
      text: 'refusal.sprayed-while-paused',
      params: { rig: 'Rig One', time: '08:10', litres: 8 },
    });
    play.do({ type: 'resume', rig: RIG }, 'pia');
    play.at('09:05').do(through, 'pia');
    expect(paint(play).batch).toBe('rig-1-2');
  });

  test('PL5 the litres that renew a line are never rounded down', () => {
    const play = mixed();
    const [rig] = play.pack.rigs;
    if (!rig) throw new Error('no rig');
    // 3 volumes of 2.5447 L are 7.634 L.
    const hoses = [{ boreMm: 12, lengthM: 22.5 }];
    play.pack = { ...play.pack, rigs: [{ ...rig, hoses }, ...play.pack.rigs.slice(1)] };
    play.do(aDay({ notes: 'a longer hose' }));
    play.at('08:30').mix();
    expect(play.rig().renewLitres).toBe(7.7);
  });

  test('BA7 a warmer mend of a batch logged late reaches older paint up to when it was logged', () => {
    const play = mixed().at('08:20');
    play.do(hose(21), 'pia');
    play.at('08:40').mix({ mixedAt: t('08:15'), paintC: 15 });
    play.do({ type: 'mend-mix-temperature', rig: RIG, batch: 'rig-1-2', c: 35 }, 'max');
    expect(tempAt(paint(play), t('08:25'))).toBe(35);
  });

  test('PL9 a hose felt warm on hot paint is counted warmer, without a ceiling that takes it back', () => {
    const play = mixed().at('08:10');
    play.do(hose(75), 'pia');
    play.do({ type: 'hose-warm', rig: RIG }, 'pia');
    expect(paint(play).history.at(-1)?.c).toBe(90);
  });
});
