import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CLEAR_SKY_W_PER_M2,
  hoseSolAirC,
  hoseTimeConstantMinutes,
  solAirC,
  stalledHoseC,
} from '../../src/trade/sun.ts';

const seed = { seed: 7, numRuns: 300 };
const anyHose = fc.record({
  startC: fc.double({ min: -10, max: 60, noNaN: true }),
  airC: fc.double({ min: -10, max: 45, noNaN: true }),
  colour: fc.constantFrom('dark', 'light'),
  boreMm: fc.double({ min: 3, max: 25, noNaN: true }),
  minutes: fc.double({ min: 0, max: 600, noNaN: true }),
  sunWPerM2: fc.double({ min: 0, max: 1200, noNaN: true }),
});
const more = fc.double({ min: 0, max: 200, noNaN: true });

describe('a hose that stands in the sun', () => {
  test('against a heat balance stepped through second by second, written independently', () => {
    // A metre of hose, bore 10 mm and 20 mm outside, filled: 1500 kJ/(m³·K) throughout. Sun on its width, heat given off
    // over half its skin.
    const perMetre = (Math.PI / 4) * 0.02 ** 2 * 1.5e6;
    const half = (Math.PI / 2) * 0.02;
    let c = 20;
    const found = { startC: 20, airC: 25, boreMm: 10 } as const;
    for (let second = 1; second <= 90 * 60; second += 1) {
      const gained = 0.9 * 1000 * 0.02;
      const lost = 17 * half * (c - 25);
      c += (gained - lost) / perMetre;
      if (second % 600 !== 0) continue;
      const estimate = stalledHoseC({ ...found, colour: 'dark', minutes: second / 60 });
      expect(Math.abs(estimate - c), `${second / 60} min`).toBeLessThan(0.03);
    }
    expect(c).toBeGreaterThan(55);
  });

  test('worked by hand: dark in air of 25 °C it nears 58.7 °C, light 41.9 °C, in a quarter of an hour each', () => {
    expect(hoseSolAirC(25, 'dark')).toBeCloseTo(25 + (0.9 * 1000 * 2) / Math.PI / 17, 9);
    expect(hoseSolAirC(25, 'dark')).toBeCloseTo(58.7, 1);
    expect(hoseSolAirC(25, 'light')).toBeCloseTo(41.9, 1);
    // 1.5e6 × π/4 × 0.02² = 471 J/K a metre; 17 × π/2 × 0.02 = 0.534 W/K; 882 s.
    expect(hoseTimeConstantMinutes(10)).toBeCloseTo(14.7, 1);
    expect(hoseTimeConstantMinutes(20)).toBeCloseTo(29.4, 1);
  });

  test('after one time constant it has gone 63 % of the way', () => {
    const minutes = hoseTimeConstantMinutes(10);
    const c = stalledHoseC({ startC: 20, airC: 25, colour: 'dark', boreMm: 10, minutes });
    expect((c - 20) / (hoseSolAirC(25, 'dark') - 20)).toBeCloseTo(0.632, 3);
  });

  test('no less for more: sun, darker, warmer air or paint, longer', () => {
    fc.assert(
      fc.property(anyHose, more, (hose, by) => {
        const c = stalledHoseC(hose);
        const worse = [
          { ...hose, sunWPerM2: hose.sunWPerM2 + by },
          { ...hose, colour: 'dark' as const },
          { ...hose, airC: hose.airC + by / 20 },
          { ...hose, startC: hose.startC + by / 20 },
          { ...hose, minutes: hose.minutes + by },
        ];
        for (const one of worse) expect(stalledHoseC(one)).toBeGreaterThanOrEqual(c - 1e-9);
      }),
      seed,
    );
  });

  test('never cooler than it was when it stopped, never warmer than what it nears', () => {
    fc.assert(
      fc.property(anyHose, (hose) => {
        const c = stalledHoseC(hose);
        expect(c).toBeGreaterThanOrEqual(hose.startC);
        const most = Math.max(hose.startC, hoseSolAirC(hose.airC, hose.colour, hose.sunWPerM2));
        expect(c).toBeLessThanOrEqual(most + 1e-9);
      }),
      seed,
    );
  });

  test('what nobody knows is taken as a clear sky', () => {
    const hose = { startC: 20, airC: 25, colour: 'dark', boreMm: 10, minutes: 30 } as const;
    expect(stalledHoseC(hose)).toBe(stalledHoseC({ ...hose, sunWPerM2: CLEAR_SKY_W_PER_M2 }));
  });

  test('one stand is the same cut in two: it goes on from where it was', () => {
    const hose = { startC: 20, airC: 25, colour: 'dark', boreMm: 10 } as const;
    const middle = stalledHoseC({ ...hose, minutes: 12 });
    expect(stalledHoseC({ ...hose, startC: middle, minutes: 18 })).toBeCloseTo(
      stalledHoseC({ ...hose, minutes: 30 }),
      9,
    );
  });
});

describe('what is refused', () => {
  const hose = { startC: 20, airC: 25, colour: 'dark', boreMm: 10, minutes: 30 } as const;
  const surface = { airC: 25, sunWPerM2: 800, absorptance: 0.9, filmWPerM2K: 17, skyLossWPerM2: 0 };
  test.each([
    { field: 'startC', call: () => stalledHoseC({ ...hose, startC: 200 }) },
    { field: 'airC', call: () => stalledHoseC({ ...hose, airC: 77 }) },
    { field: 'colour', call: () => stalledHoseC({ ...hose, colour: 'toString' as 'dark' }) },
    { field: 'boreMm', call: () => stalledHoseC({ ...hose, boreMm: 0 }) },
    { field: 'minutes', call: () => stalledHoseC({ ...hose, minutes: -1 }) },
    { field: 'minutes', call: () => stalledHoseC({ ...hose, minutes: Number.NaN }) },
    { field: 'sunWPerM2', call: () => stalledHoseC({ ...hose, sunWPerM2: 5000 }) },
    { field: 'absorptance', call: () => solAirC({ ...surface, absorptance: 90 }) },
    { field: 'filmWPerM2K', call: () => solAirC({ ...surface, filmWPerM2K: 0 }) },
    { field: 'skyLossWPerM2', call: () => solAirC({ ...surface, skyLossWPerM2: -1 }) },
  ])('$field', ({ field, call }) => {
    expect(call).toThrow(expect.objectContaining({ name: 'TradeRefusal', field }));
  });
});
