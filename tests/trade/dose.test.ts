import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clockTimes, doseBetween, type TemperatureStep, timeAtDose } from '../../src/trade/dose.ts';
import { anyPaintC, anySheet } from './sheets.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const NOON = 1_773_050_400_000;
const seed = { seed: 7, numRuns: 300 };

const sheet = [
  { c: 10, minutes: 480 },
  { c: 20, minutes: 240 },
  { c: 30, minutes: 120 },
];

const anyHistory: fc.Arbitrary<readonly TemperatureStep[]> = fc.array(
  fc.record({ at: fc.integer({ min: NOON - 4 * HOUR, max: NOON + 12 * HOUR }), c: anyPaintC }),
  { minLength: 1, maxLength: 12 },
);
const anyMoment = fc.integer({ min: NOON - 6 * HOUR, max: NOON + 16 * HOUR });

describe('dose', () => {
  test('half of the pot life at 20 °C, then a quarter at 30 °C', () => {
    const history = [
      { at: NOON, c: 20 },
      { at: NOON + 2 * HOUR, c: 30 },
    ];
    expect(doseBetween(sheet, history, NOON, NOON + 2 * HOUR)).toBe(0.5);
    expect(doseBetween(sheet, history, NOON, NOON + 2.5 * HOUR)).toBe(0.75);
    expect(timeAtDose(sheet, history, NOON, 1)).toBe(NOON + 3 * HOUR);
  });

  test('the first temperature also covers the time before it, the last one all the time after', () => {
    const history = [{ at: NOON, c: 20 }];
    expect(doseBetween(sheet, history, NOON - 4 * HOUR, NOON)).toBe(1);
    expect(doseBetween(sheet, history, NOON + 96 * HOUR, NOON + 100 * HOUR)).toBe(1);
  });

  test('of two readings at one moment the warmer counts, whatever the order', () => {
    const cool = { at: NOON, c: 10 };
    const warm = { at: NOON, c: 30 };
    const from = NOON - HOUR;
    for (const history of [
      [cool, warm],
      [warm, cool],
    ])
      expect(doseBetween(sheet, history, from, NOON + HOUR)).toBe(1);
  });

  test('paint past its end has used up more than 1', () => {
    expect(doseBetween(sheet, [{ at: NOON, c: 30 }], NOON, NOON + 6 * HOUR)).toBe(3);
  });

  test('it adds up over split intervals', () => {
    fc.assert(
      fc.property(anySheet, anyHistory, anyMoment, anyMoment, anyMoment, (points, history, x, y, z) => {
        const [from = 0, mid = 0, to = 0] = [x, y, z].sort((p, q) => p - q);
        const whole = doseBetween(points, history, from, to);
        const split = doseBetween(points, history, from, mid) + doseBetween(points, history, mid, to);
        expect(Math.abs(whole - split)).toBeLessThanOrEqual(1e-12 * Math.max(1, whole));
      }),
      seed,
    );
  });

  test('the order of the history does not matter, and repeating a step changes nothing', () => {
    fc.assert(
      fc.property(anySheet, anyHistory, anyMoment, (points, history, from) => {
        const dose = doseBetween(points, history, from, from + 8 * HOUR);
        expect(doseBetween(points, [...history].reverse(), from, from + 8 * HOUR)).toBe(dose);
        expect(doseBetween(points, [...history, ...history], from, from + 8 * HOUR)).toBe(dose);
      }),
      seed,
    );
  });

  test('a warmer history never means less', () => {
    fc.assert(
      fc.property(
        anySheet,
        anyHistory,
        anyMoment,
        fc.double({ min: 0, max: 20, noNaN: true }),
        (points, history, from, by) => {
          const warmer = history.map((step) => ({ at: step.at, c: step.c + by }));
          const dose = doseBetween(points, history, from, from + 8 * HOUR);
          expect(doseBetween(points, warmer, from, from + 8 * HOUR)).toBeGreaterThanOrEqual(
            dose * (1 - 1e-9),
          );
        },
      ),
      seed,
    );
  });

  test('timeAtDose undoes doseBetween to the millisecond, and never rounds up', () => {
    fc.assert(
      fc.property(
        anySheet,
        anyHistory,
        anyMoment,
        fc.double({ min: 0, max: 3, noNaN: true }),
        (points, history, from, dose) => {
          const at = timeAtDose(points, history, from, dose);
          expect(Number.isInteger(at)).toBe(true);
          expect(at).toBeGreaterThanOrEqual(from);
          // One millisecond at the fastest rate of the history, and rounding of the sum.
          const dust = 1e-9;
          expect(doseBetween(points, history, from, at)).toBeLessThanOrEqual(dose + dust);
          expect(doseBetween(points, history, from, at + 1)).toBeGreaterThanOrEqual(dose - dust);
        },
      ),
      seed,
    );
  });

  test('a new reading changes nothing that is past', () => {
    fc.assert(
      fc.property(anySheet, anyHistory, anyPaintC, (points, history, c) => {
        const from = NOON - 5 * HOUR;
        const now = NOON + 13 * HOUR;
        const more = [...history, { at: now, c }];
        expect(doseBetween(points, more, from, now)).toBe(doseBetween(points, history, from, now));
      }),
      seed,
    );
  });

  test('an end before the start and an empty history are refused', () => {
    const history = [{ at: NOON, c: 20 }];
    expect(() => doseBetween(sheet, history, NOON, NOON - 1)).toThrow(
      expect.objectContaining({ field: 'toMs' }),
    );
    expect(() => doseBetween(sheet, [], NOON, NOON)).toThrow(expect.objectContaining({ field: 'history' }));
    expect(() => timeAtDose(sheet, [{ at: NOON, c: 280 }], NOON, 1)).toThrow(
      expect.objectContaining({ field: 'history[0].c', value: 280 }),
    );
  });
});

describe('against fine-step integration over a day, written independently', () => {
  // A day of 24 h in steps of one second: at every second the rate is read from the temperature in force, with the
  // pot life of the sheet computed here through an activation energy instead of through the functions under test.
  const cold = { c: 8, minutes: 2400 };
  const warm = { c: 35, minutes: 600 };
  const energyOverGas =
    Math.log(cold.minutes / warm.minutes) / (1 / (cold.c + 273.15) - 1 / (warm.c + 273.15));
  const lifeMinutes = (c: number) => {
    if (c <= cold.c) return cold.minutes;
    const line = warm.minutes * Math.exp(energyOverGas * (1 / (c + 273.15) - 1 / (warm.c + 273.15)));
    return c <= warm.c ? line : Math.min(line, warm.minutes * 2 ** (-(c - warm.c) / 10));
  };

  // Readings through a day, a cold morning and a hose in the afternoon sun, at uneven moments.
  const day = Array.from({ length: 48 }, (_, i) => ({
    at: NOON + i * 30 * MINUTE + ((i * 7919) % 900) * 1000 + ((i * 104729) % 1000),
    c: 22 - 18 * Math.cos((i / 48) * 2 * Math.PI),
  }));
  const temperatureAt = (at: number) => {
    let c = day[0]?.c ?? Number.NaN;
    for (const step of day) if (step.at <= at) c = step.c;
    return c;
  };

  // Each second is cut into 20 slices read at their middle.
  const integrate = (from: number, to: number, reached = Number.POSITIVE_INFINITY) => {
    let dose = 0;
    const slice = 50;
    for (let at = from; at < to; at += slice) {
      dose += slice / MINUTE / lifeMinutes(temperatureAt(at + slice / 2));
      if (dose >= reached) return { dose, at: at + slice };
    }
    return { dose, at: to };
  };

  test('the day reaches colder than the sheet, between its points and warmer', () => {
    const found = clockTimes({
      points: [cold, warm],
      history: day,
      mixedAt: NOON,
      reserveFraction: 0.25,
      flushMinutes: 20,
    });
    expect(found.bases).toEqual(['colder-held', 'between', 'warmer']);
    expect(found.deadAt).toBeGreaterThan(NOON + 10 * HOUR);
    expect(found.deadAt).toBeLessThan(NOON + 24 * HOUR);
  });

  test('the dose of the whole day agrees', () => {
    const byHand = integrate(NOON, NOON + 24 * HOUR).dose;
    expect(byHand).toBeGreaterThan(1);
    expect(doseBetween([cold, warm], day, NOON, NOON + 24 * HOUR)).toBeCloseTo(byHand, 6);
  });

  test.each([0.25, 0.5, 0.75, 1])('the moment of dose %d agrees within a second', (dose) => {
    const byHand = integrate(NOON, NOON + 24 * HOUR, dose).at;
    expect(Math.abs(timeAtDose([cold, warm], day, NOON, dose) - byHand)).toBeLessThan(1000);
  });
});

describe('clock times', () => {
  const at20 = { points: sheet, history: [{ at: NOON, c: 20 }], mixedAt: NOON, reserveFraction: 0.25 };

  test('the reserve governs while the flush is shorter than it', () => {
    expect(clockTimes({ ...at20, flushMinutes: 30 })).toEqual({
      useBy: NOON + 3 * HOUR,
      startFlushBy: NOON + 3.5 * HOUR,
      deadAt: NOON + 4 * HOUR,
      tooShort: false,
      bases: ['point'],
    });
  });

  test('a longer flush moves use-by forward', () => {
    const found = clockTimes({ ...at20, flushMinutes: 90 });
    expect(found.useBy).toBe(NOON + 2.5 * HOUR);
    expect(found.startFlushBy).toBe(NOON + 2.5 * HOUR);
  });

  test.each([240, 300])(
    'a flush of %d min in a pot life of 240 min: too short to use at all',
    (flushMinutes) => {
      expect(clockTimes({ ...at20, flushMinutes })).toMatchObject({
        useBy: NOON,
        startFlushBy: NOON,
        deadAt: NOON + 4 * HOUR,
        tooShort: true,
      });
    },
  );

  test('the times stay in order, none before mixing, whatever the day', () => {
    fc.assert(
      fc.property(
        anySheet,
        anyHistory,
        anyMoment,
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (points, history, mixedAt, reserveFraction, flushMinutes) => {
          const found = clockTimes({ points, history, mixedAt, reserveFraction, flushMinutes });
          expect(found.useBy).toBeGreaterThanOrEqual(mixedAt);
          expect(found.startFlushBy).toBeGreaterThanOrEqual(found.useBy);
          expect(found.deadAt).toBeGreaterThanOrEqual(found.startFlushBy);
          expect(found.bases.length).toBeGreaterThan(0);
          for (const moment of [found.useBy, found.startFlushBy, found.deadAt])
            expect(Number.isInteger(moment)).toBe(true);
          if (!found.tooShort)
            expect(found.deadAt - found.startFlushBy).toBeGreaterThanOrEqual(flushMinutes * MINUTE - 0.01);
        },
      ),
      seed,
    );
  });

  test('a warmer last reading never gives later times; a longer flush or larger reserve neither', () => {
    fc.assert(
      fc.property(
        anySheet,
        anyHistory,
        anyPaintC,
        fc.double({ min: 0, max: 20, noNaN: true }),
        (points, before, c, by) => {
          const at = NOON + 12 * HOUR;
          const clock = (last: number, flushMinutes: number, reserveFraction: number) =>
            clockTimes({
              points,
              history: [...before, { at, c: last }],
              mixedAt: NOON + 10 * HOUR,
              reserveFraction,
              flushMinutes,
            });
          const found = clock(c, 20, 0.25);
          for (const sooner of [
            clock(c + by, 20, 0.25),
            clock(c, 20 + by, 0.25),
            clock(c, 20, 0.25 + by / 40),
          ])
            for (const time of ['useBy', 'startFlushBy', 'deadAt'] as const)
              expect(sooner[time]).toBeLessThanOrEqual(found[time] + 1);
        },
      ),
      seed,
    );
  });

  test('a reading colder than the sheet is reported and gives no more time than the coldest point', () => {
    const found = clockTimes({ ...at20, history: [{ at: NOON, c: 3 }], flushMinutes: 10 });
    expect(found.bases).toEqual(['colder-held']);
    expect(found.deadAt).toBe(NOON + 8 * HOUR);
  });
});
