import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { onePointBounds, potLifeByEnergy, q10OfEnergy } from '../../src/trade/activation.ts';
import { freeAirLPerMin } from '../../src/trade/air.ts';
import { assessClimate, dewPointC, rhFromWetBulb, saturationHPa, wetBulb } from '../../src/trade/climate.ts';
import * as convert from '../../src/trade/convert.ts';
import { clockTimes, doseBetween, timeAtDose } from '../../src/trade/dose.ts';
import { fanWear } from '../../src/trade/fan.ts';
import {
  dryFilmUm,
  litresNeeded,
  spreadingRateM2PerL,
  thinnedSolidsPct,
  wetFilmUm,
} from '../../src/trade/film.ts';
import { flushPlan, solventForDay } from '../../src/trade/flush.ts';
import { gunBar, highestLineBar, staticHeadBar } from '../../src/trade/head.ts';
import { feltHeat, heatBandOf, heatIndexC, heatSteps } from '../../src/trade/heat.ts';
import { inductionMinutes } from '../../src/trade/induction.ts';
import { hoseVolumeL, lowestRating, stallBar } from '../../src/trade/line.ts';
import { offRatio, splitMix } from '../../src/trade/mix.ts';
import { potLifeByQ10, potLifeMinutes } from '../../src/trade/pot-life.ts';
import { pressureAtHPa } from '../../src/trade/pressure-at.ts';
import { inRange, someOf, TradeRefusal } from '../../src/trade/refusal.ts';
import { m2PerMinute } from '../../src/trade/spray-rate.ts';
import { hoseSolAirC, hoseTimeConstantMinutes, solAirC, stalledHoseC } from '../../src/trade/sun.ts';
import { tipFlowLPerMin } from '../../src/trade/tip.ts';
import { trendOf } from '../../src/trade/trend.ts';
import { assessWbgt, wbgtLimits, wbgtShadeC, wbgtSunC } from '../../src/trade/wbgt.ts';

const refusalOf = (call: () => unknown): TradeRefusal => {
  try {
    call();
  } catch (error) {
    if (error instanceof TradeRefusal) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

describe('TradeRefusal', () => {
  test('names field, value, valid range and reason, in fields and in its message', () => {
    const refusal = refusalOf(() => inRange('airC', 280, -40, 60, '°C', 'Check the unit.'));
    expect(refusal).toMatchObject({
      name: 'TradeRefusal',
      field: 'airC',
      value: 280,
      valid: 'a number from -40 to 60 °C',
      why: 'Check the unit.',
    });
    expect(refusal.message).toBe('airC is 280; it must be a number from -40 to 60 °C. Check the unit.');
  });

  test.each([
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    undefined,
    null,
    '20',
    [20],
    {},
  ])('inRange refuses %s', (value) => {
    expect(refusalOf(() => inRange('x', value, 0, 100, '%', 'Why.')).field).toBe('x');
  });

  test('both ends are in range, and a range without a unit reads well', () => {
    expect(inRange('x', 0, 0, 1, '', 'Why.')).toBe(0);
    expect(inRange('x', 1, 0, 1, '', 'Why.')).toBe(1);
    expect(refusalOf(() => inRange('x', 2, 0, 1, '', 'Why.')).valid).toBe('a number from 0 to 1');
  });

  test('someOf refuses an empty list and what is no list', () => {
    expect(someOf('hoses', [1, 2], 'Why.')).toEqual([1, 2]);
    expect(refusalOf(() => someOf('hoses', [], 'Why.')).message).toContain('an empty list');
    expect(refusalOf(() => someOf('hoses', undefined as unknown as [], 'Why.')).field).toBe('hoses');
  });
});

/** Every public function that takes numbers: which ones, some that work, and the call. */
type Call = readonly [name: string, good: Readonly<Record<string, number>>, run: (n: never) => unknown];
const call = <T extends Readonly<Record<string, number>>>(
  name: string,
  good: T,
  run: (n: T) => unknown,
): Call => [name, good, run as (n: never) => unknown];

const sheet = [
  { c: 10, minutes: 480 },
  { c: 30, minutes: 120 },
];
const history = [{ at: 0, c: 20 }];
const hoses = [{ boreMm: 10, lengthM: 30 }];

const calls: readonly Call[] = [
  call('dewPointC', { a: 20, b: 50 }, (n) => dewPointC(n.a, n.b)),
  call('rhFromWetBulb', { a: 20, b: 15, c: 1000 }, (n) => rhFromWetBulb(n.a, n.b, n.c)),
  call('wetBulb', { a: 20, b: 15, c: 1000 }, (n) => wetBulb(n.a, n.b, n.c)),
  call('saturationHPa', { a: 20 }, (n) => saturationHPa(n.a)),
  call('heatSteps', { a: 30, b: 50 }, (n) => heatSteps(n.a, n.b).indexF),
  call('pressureAtHPa', { a: 500 }, (n) => pressureAtHPa(n.a)),
  call('heatIndexC', { a: 30, b: 50 }, (n) => heatIndexC(n.a, n.b)),
  call('heatBandOf', { a: 30 }, (n) => heatBandOf(n.a) === null || 1),
  call('feltHeat', { a: 30, b: 50 }, (n) => feltHeat(n.a, n.b).kind === 'cool' || 1),
  call('wbgtShadeC', { a: 25, b: 35 }, (n) => wbgtShadeC(n.a, n.b)),
  call('wbgtSunC', { a: 25, b: 35, c: 30 }, (n) => wbgtSunC(n.a, n.b, n.c)),
  call('wbgtLimits', { a: 300 }, (n) => wbgtLimits(n.a)),
  call('assessWbgt', { a: 25, b: 300 }, (n) => assessWbgt(n.a, 'polyolefin', n.b).wornC),
  call(
    'trendOf',
    { at: 3_600_000, value: 4, least: 3 },
    ({ at, value, least }) =>
      trendOf(
        [
          { at: 0, value: 5 },
          { at, value },
        ],
        { least },
      )?.perHour ?? 0,
  ),
  call('assessClimate reading', { airC: 20, rhPct: 50, steelC: 20 }, (n) =>
    assessClimate(n, { marginMinC: 3, rhMaxPct: 85 }),
  ),
  call(
    'assessClimate limits',
    { marginMinC: 3, rhMaxPct: 85, rhMinPct: 40, steelMinC: 5, steelMaxC: 50, airMinC: 5, airMaxC: 40 },
    (n) => assessClimate({ airC: 20, rhPct: 50, steelC: 20 }, n),
  ),
  call('thinnedSolidsPct', { a: 50, b: 5 }, (n) => thinnedSolidsPct(n.a, n.b)),
  call('wetFilmUm', { a: 100, b: 50, c: 5 }, (n) => wetFilmUm(n.a, n.b, n.c)),
  call('dryFilmUm', { a: 100, b: 50, c: 5 }, (n) => dryFilmUm(n.a, n.b, n.c)),
  call('spreadingRateM2PerL', { a: 100, b: 50, c: 5 }, (n) => spreadingRateM2PerL(n.a, n.b, n.c)),
  call(
    'litresNeeded',
    { areaM2: 10, dftUm: 100, volumeSolidsPct: 50, lossPct: 30, profileAllowanceUm: 10 },
    litresNeeded,
  ),
  call('splitMix', { ratioA: 4, ratioB: 1, mixedLitres: 20, thinnerPct: 5 }, splitMix),
  call('offRatio', { ratioA: 4, ratioB: 1, aL: 16, bL: 4 }, offRatio),
  call('stallBar', { a: 45, b: 5 }, (n) => stallBar(n.a, n.b)),
  call('lowestRating', { bar: 300 }, (n) => lowestRating([{ part: 'hose', bar: n.bar }])),
  call('hoseVolumeL', { boreMm: 10, lengthM: 30 }, (n) => hoseVolumeL([n])),
  call(
    'flushPlan',
    {
      pumpAndFilterL: 0.5,
      drainLineL: 0.2,
      lineVolumesPrimary: 2,
      lineVolumesSecondary: 2,
      litresPerCycle: 0.1,
      cyclesPerMinute: 20,
      fixedMinutes: 8,
    },
    (n) => flushPlan({ hoses, ...n }),
  ),
  call('solventForDay', { primaryL: 9, secondaryL: 6, flushes: 2, settledL: 5 }, solventForDay),
  call('staticHeadBar', { a: 1400, b: 20 }, (n) => staticHeadBar(n.a, n.b)),
  call('highestLineBar', { pumpBar: 225, densityKgPerM3: 1400, liftM: -20 }, highestLineBar),
  call('gunBar', { pumpBar: 225, densityKgPerM3: 1400, liftM: 20 }, gunBar),
  call('freeAirLPerMin', { ratio: 45, fluidLPerMin: 1.2, airBar: 5, ambientBar: 1.013 }, freeAirLPerMin),
  call(
    'm2PerMinute',
    { flowLPerMin: 1.2, volumeSolidsPct: 80, thinnerPct: 5, dftUm: 150, profileAllowanceUm: 10, lossPct: 30 },
    m2PerMinute,
  ),
  call('fanWear', { widthMm: 240, before: 250, wornPct: 25 }, (n) =>
    fanWear({ ...n, codeMm: 254, before: [n.before] }),
  ),
  call('tipFlowLPerMin', { orificeMm: 0.4, bar: 200, densityKgPerM3: 1400, cd: 0.8 }, tipFlowLPerMin),
  call('potLifeMinutes', { c: 20 }, (n) => potLifeMinutes(sheet, n.c)),
  call('potLifeMinutes sheet', { c: 20, minutes: 200 }, (n) => potLifeMinutes([n], 20)),
  call('potLifeByQ10', { a: 240, b: 20, c: 30, d: 2 }, (n) => potLifeByQ10(n.a, n.b, n.c, n.d)),
  call('potLifeByEnergy', { a: 240, b: 20, c: 30, d: 50 }, (n) => potLifeByEnergy(n.a, n.b, n.c, n.d)),
  call('q10OfEnergy', { a: 50, b: 20 }, (n) => q10OfEnergy(n.a, n.b)),
  call('onePointBounds', { c: 20, minutes: 240, at: 30 }, (n) => onePointBounds(n, n.at)),
  call(
    'solAirC',
    { airC: 25, sunWPerM2: 800, absorptance: 0.9, filmWPerM2K: 17, skyLossWPerM2: 63 },
    solAirC,
  ),
  call('hoseSolAirC', { air: 25, sun: 800 }, (n) => hoseSolAirC(n.air, 'dark', n.sun)),
  call('hoseTimeConstantMinutes', { boreMm: 10 }, (n) => hoseTimeConstantMinutes(n.boreMm)),
  call('stalledHoseC', { startC: 20, airC: 25, boreMm: 10, minutes: 30, sunWPerM2: 800 }, (n) =>
    stalledHoseC({ ...n, colour: 'light' }),
  ),
  call('inductionMinutes', { c: 20 }, (n) => inductionMinutes(sheet, n.c)),
  call('inductionMinutes table', { c: 20, minutes: 30 }, (n) => inductionMinutes([n], 20)),
  call('doseBetween', { from: 0, to: 1000 }, (n) => doseBetween(sheet, history, n.from, n.to)),
  call('doseBetween history', { at: 0, c: 20 }, (n) => doseBetween(sheet, [n], 0, 1000)),
  call('timeAtDose', { from: 0, dose: 1 }, (n) => timeAtDose(sheet, history, n.from, n.dose)),
  call('clockTimes', { mixedAt: 0, reserveFraction: 0.25, flushMinutes: 20 }, (n) =>
    clockTimes({ points: sheet, history, ...n }),
  ),
  ...Object.entries(convert).map(([name, run]) => call(name, { amount: 10 }, (n) => run(n.amount))),
];

const allFinite = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : typeof value !== 'object' || value === null || Object.values(value).every(allFinite);

describe.each(calls)('%s', (_name, good, run) => {
  const runWith = (numbers: object) => run(numbers as never);

  test('works with the numbers the refusals below start from', () => {
    expect(allFinite(runWith(good))).toBe(true);
  });

  test.each(Object.keys(good))('refuses a %s that is no number or out of every range', (field) => {
    for (const bad of [
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      1e300,
      -1e300,
      '20',
      null,
    ])
      expect(() => runWith({ ...good, [field]: bad }), String(bad)).toThrow(TradeRefusal);
  });

  test('whatever the numbers, the answer is finite or a TradeRefusal', () => {
    const wild = fc.oneof(
      fc.double(),
      fc.double({ min: -200, max: 200, noNaN: true }),
      fc.constantFrom(0, -0, 1, 100, 1e-9),
    );
    const numbers = fc.record(Object.fromEntries(Object.keys(good).map((field) => [field, wild])));
    fc.assert(
      fc.property(numbers, (found) => {
        try {
          return allFinite(runWith({ ...good, ...found }));
        } catch (error) {
          return error instanceof TradeRefusal;
        }
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
