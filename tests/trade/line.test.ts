import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hoseVolumeL, lowestRating, stallBar } from '../../src/trade/line.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const seed = { seed: 7 };
const bore = fc.double({ min: 4, max: 20, noNaN: true });
const length = fc.double({ min: 1, max: 60, noNaN: true });

describe('pressure', () => {
  test('no air, no pressure; more air or more ratio, more pressure', () => {
    expect(stallBar(45, 0)).toBe(0);
    expect(stallBar(45, 6)).toBeGreaterThan(stallBar(45, 5));
    expect(stallBar(56, 5)).toBeGreaterThan(stallBar(45, 5));
  });

  test('the weakest part is found wherever it stands; of equals the first', () => {
    const parts = [
      { part: 'pump', bar: 500 },
      { part: 'hose', bar: 250 },
      { part: 'gun', bar: 345 },
      { part: 'swivel', bar: 250 },
    ];
    expect(lowestRating(parts)).toEqual({ part: 'hose', bar: 250 });
    expect(lowestRating([...parts].reverse())).toEqual({ part: 'swivel', bar: 250 });
  });

  test('no ratings at all are refused, not taken as no limit', () => {
    expect(() => lowestRating([])).toThrow(TradeRefusal);
  });

  test('a rating out of range is named by its place and part', () => {
    expect(() =>
      lowestRating([
        { part: 'pump', bar: 500 },
        { part: 'hose', bar: 0 },
      ]),
    ).toThrow(/ratings\[1\]\.bar is 0.*hose/);
  });
});

describe('hose volume', () => {
  test('hose sections add up in any order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ boreMm: bore, lengthM: length }), { minLength: 1, maxLength: 6 }),
        (all) => {
          const apart = all.reduce((sum, one) => sum + hoseVolumeL([one]), 0);
          expect(hoseVolumeL(all)).toBeCloseTo(apart, 9);
          expect(hoseVolumeL([...all].reverse())).toBeCloseTo(apart, 9);
        },
      ),
      seed,
    );
  });
});
