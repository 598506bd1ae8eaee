import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gunBar, highestLineBar, staticHeadBar } from '../../src/trade/head.ts';

const seed = { seed: 7 };
const pumpBar = fc.double({ min: 50, max: 500, noNaN: true });
const densityKgPerM3 = fc.double({ min: 700, max: 3500, noNaN: true });
const liftM = fc.double({ min: -120, max: 120, noNaN: true });

describe('static head', () => {
  test('nothing on the level, and never minus nothing', () => {
    expect(staticHeadBar(1400, 0)).toBe(0);
    expect(staticHeadBar(1400, -0)).toBe(0);
  });

  test('up and down are the same with the other sign; heavier and higher is more', () => {
    fc.assert(
      fc.property(densityKgPerM3, liftM, (density, lift) => {
        expect(staticHeadBar(density, -lift)).toBeCloseTo(-staticHeadBar(density, lift), 9);
        expect(Math.abs(staticHeadBar(density + 100, lift))).toBeGreaterThanOrEqual(
          Math.abs(staticHeadBar(density, lift)),
        );
      }),
      seed,
    );
  });
});

describe('the highest pressure in the line', () => {
  test('is never below the pump, nor below the gun', () => {
    fc.assert(
      fc.property(pumpBar, densityKgPerM3, liftM, (pump, density, lift) => {
        const line = { pumpBar: pump, densityKgPerM3: density, liftM: lift };
        expect(highestLineBar(line)).toBeGreaterThanOrEqual(pump);
        expect(highestLineBar(line)).toBeGreaterThanOrEqual(gunBar(line) - 1e-9);
      }),
      seed,
    );
  });

  test('is at the pump for a gun above it and at the gun for one below', () => {
    const line = { pumpBar: 225, densityKgPerM3: 1400 };
    expect(highestLineBar({ ...line, liftM: 30 })).toBe(225);
    expect(gunBar({ ...line, liftM: 30 })).toBeCloseTo(225 - 4.119, 3);
    expect(highestLineBar({ ...line, liftM: -30 })).toBeCloseTo(225 + 4.119, 3);
    expect(gunBar({ ...line, liftM: -30 })).toBeCloseTo(225 + 4.119, 3);
  });

  test('a lift that the pump cannot reach is refused with the height it can', () => {
    expect(() => gunBar({ pumpBar: 4, densityKgPerM3: 1400, liftM: 60 })).toThrow(
      expect.objectContaining({ field: 'liftM', valid: 'at most 29.1 m for 4 bar' }),
    );
  });
});
