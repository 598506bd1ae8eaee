import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kitFault, offRatio, partsFault, splitMix, thinnerFault } from '../../src/trade/mix.ts';
import { checkMix } from '../../src/trade/mix-check.ts';
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

describe('checking a mix', () => {
  const mix = {
    mixedLitres: 20,
    thinnerL: 0,
    ratio: { a: 4, b: 1 },
    kitLitres: 20,
    thinnerMostPct: 5,
  } as const;

  test('whole kits by the ratio and a part kit measured in ratio are right', () => {
    expect(checkMix(mix)).toEqual({ fault: null, aL: 16, bL: 4 });
    expect(checkMix({ ...mix, mixedLitres: 10, aL: 8, bL: 2 })).toEqual({ fault: null, aL: 8, bL: 2 });
    expect(checkMix({ ...mix, ratio: null, mixedLitres: 7 })).toEqual({ fault: null, aL: 7, bL: 0 });
  });

  test.each([
    [
      'less than a kit',
      { mixedLitres: 10 },
      { kind: 'part-kit', below: null, above: { count: 1, litres: 20 } },
    ],
    ['one part alone', { aL: 16 }, { kind: 'one-part-missing', missing: 'b' }],
    ['the other part alone', { bL: 4 }, { kind: 'one-part-missing', missing: 'a' }],
    ['parts that are not the sum', { aL: 8, bL: 2 }, { kind: 'parts-do-not-add', partsL: 10, mixedL: 20 }],
    ['a wrong ratio', { aL: 17, bL: 3 }, { kind: 'off-ratio', neededBL: 4.25 }],
    ['too much thinner', { thinnerL: 1.2 }, { kind: 'thinner-over', mostPct: 5, mostL: 1 }],
    [
      'thinner in a one-pack that has none',
      { ratio: null, thinnerL: 1, thinnerMostPct: 0 },
      { kind: 'thinner-over' },
    ],
  ])('%s is named', (_what, more, fault) => {
    expect(checkMix({ ...mix, ...more }).fault).toMatchObject(fault);
  });

  test('a kit that is short by less than a hundredth is a kit, and by more is not', () => {
    expect(kitFault(19.81, 20)).toBeNull();
    expect(kitFault(19.79, 20)).toMatchObject({ below: null });
    expect(kitFault(40.1, 20)).toBeNull();
  });

  test('whole kits are always taken, and the nearest kits lie around what was refused', () => {
    const kit = fc.double({ min: 1, max: 200, noNaN: true });
    fc.assert(
      fc.property(
        kit,
        fc.integer({ min: 1, max: 20 }),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        (k, n, part) => {
          expect(kitFault(k * n, k)).toBeNull();
          const fault = kitFault(k * (n + part), k);
          expect(fault?.below?.count).toBe(n);
          expect(fault?.above.count).toBe(n + 1);
          expect(kitFault(fault?.above.litres ?? 0, k)).toBeNull();
        },
      ),
      { seed: 7 },
    );
  });

  test('what may not be measured is refused', () => {
    expect(() => thinnerFault(20, -1, 5)).toThrow(TradeRefusal);
    expect(() => partsFault(20, 0, 4)).toThrow(TradeRefusal);
    expect(() => kitFault(20, 0)).toThrow(TradeRefusal);
    expect(() => checkMix({ ...mix, mixedLitres: Number.NaN })).toThrow(TradeRefusal);
  });
});
