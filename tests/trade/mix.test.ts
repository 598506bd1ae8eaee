import fc from 'fast-check';
import { expect, test } from 'vitest';
import { offRatio, splitMix } from '../../src/trade/mix.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const ratio = fc.double({ min: 0.5, max: 20, noNaN: true });

test('the parts make up the whole, keep the ratio, and are not off ratio', () => {
  fc.assert(
    fc.property(
      ratio,
      ratio,
      fc.double({ min: 1, max: 200, noNaN: true }),
      fc.double({ min: 0, max: 30, noNaN: true }),
      (ratioA, ratioB, mixedLitres, thinnerPct) => {
        const { aL, bL, thinnerL, totalL } = splitMix({ ratioA, ratioB, mixedLitres, thinnerPct });
        expect(aL + bL).toBeCloseTo(mixedLitres, 9);
        expect(aL + bL + thinnerL).toBeCloseTo(totalL, 9);
        expect(thinnerL).toBeCloseTo((mixedLitres * thinnerPct) / 100, 9);
        expect(offRatio({ ratioA, ratioB, aL, bL }).hardenerErrorPct).toBeCloseTo(0, 9);
      },
    ),
    { seed: 7 },
  );
});

test('too much hardener is a positive error', () => {
  expect(offRatio({ ratioA: 4, ratioB: 1, aL: 16, bL: 5 }).hardenerErrorPct).toBeCloseTo(25, 9);
});

test('a ratio of 0 and a mix without hardener are refused', () => {
  expect(() => splitMix({ ratioA: 4, ratioB: 0, mixedLitres: 20, thinnerPct: 0 })).toThrow(TradeRefusal);
  expect(() => offRatio({ ratioA: 4, ratioB: 1, aL: 16, bL: 0 })).toThrow(TradeRefusal);
});
