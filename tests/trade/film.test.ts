import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dryFilmUm,
  extraPctFromLossPct,
  litresNeeded,
  lossPctFromExtraPct,
  spreadingRateFt2PerUsGallon,
  spreadingRateM2PerL,
  thinnedSolidsPct,
  wetFilmUm,
} from '../../src/trade/film.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const seed = { seed: 7 };
const dft = fc.double({ min: 20, max: 500, noNaN: true });
const solids = fc.double({ min: 20, max: 100, noNaN: true });
const thinner = fc.double({ min: 0, max: 50, noNaN: true });
const area = fc.double({ min: 1, max: 5000, noNaN: true });
const loss = fc.double({ min: 0, max: 80, noNaN: true });
const near = (found: number, expected: number) => Math.abs(found - expected) <= 1e-9 * Math.abs(expected);

describe('film', () => {
  test('more thinner never means a thinner wet film, never adds solids', () => {
    fc.assert(
      fc.property(dft, solids, thinner, thinner, (um, vs, x, y) => {
        const [less, more] = x <= y ? [x, y] : [y, x];
        expect(wetFilmUm(um, vs, more)).toBeGreaterThanOrEqual(wetFilmUm(um, vs, less));
        expect(thinnedSolidsPct(vs, more)).toBeLessThanOrEqual(thinnedSolidsPct(vs, less));
      }),
      seed,
    );
  });

  test('wet from dry and dry from wet undo each other', () => {
    fc.assert(
      fc.property(dft, solids, thinner, (um, vs, th) => near(dryFilmUm(wetFilmUm(um, vs, th), vs, th), um)),
      seed,
    );
  });

  test('litres are area over the practical rate', () => {
    fc.assert(
      fc.property(area, dft, solids, loss, (areaM2, dftUm, volumeSolidsPct, lossPct) =>
        near(
          litresNeeded({ areaM2, dftUm, volumeSolidsPct, lossPct }),
          areaM2 / spreadingRateM2PerL(dftUm, volumeSolidsPct, lossPct),
        ),
      ),
      seed,
    );
  });

  test('a profile allowance counts like film and is left out when not given', () => {
    const input = { areaM2: 100, dftUm: 100, volumeSolidsPct: 50, lossPct: 0 };
    expect(litresNeeded({ ...input, profileAllowanceUm: 25 })).toBeCloseTo(
      litresNeeded({ ...input, dftUm: 125 }),
      9,
    );
    expect(litresNeeded({ ...input, profileAllowanceUm: undefined })).toBe(litresNeeded(input));
  });

  test('loss on the paint used and extra on the theory undo each other, and extra is never the smaller', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 95, noNaN: true }), (lossPct) => {
        const extra = extraPctFromLossPct(lossPct);
        expect(lossPctFromExtraPct(extra)).toBeCloseTo(lossPct, 9);
        expect(extra).toBeGreaterThanOrEqual(lossPct);
      }),
      seed,
    );
  });

  test('more loss never covers more, in either unit, and never needs less paint', () => {
    fc.assert(
      fc.property(dft, solids, loss, loss, (um, vs, x, y) => {
        const [less, more] = x <= y ? [x, y] : [y, x];
        for (const rate of [spreadingRateM2PerL, spreadingRateFt2PerUsGallon])
          expect(rate(um, vs, more)).toBeLessThanOrEqual(rate(um, vs, less));
        const litres = (lossPct: number) =>
          litresNeeded({ areaM2: 100, dftUm: um, volumeSolidsPct: vs, lossPct });
        expect(litres(more)).toBeGreaterThanOrEqual(litres(less));
      }),
      seed,
    );
  });

  test.each([
    ['all of the paint lost', () => extraPctFromLossPct(100)],
    ['a loss of −1 %', () => extraPctFromLossPct(-1)],
    ['no number', () => lossPctFromExtraPct(Number.NaN)],
    ['no film', () => spreadingRateFt2PerUsGallon(0, 50)],
  ])('%s is refused', (_what, arithmetic) => {
    expect(arithmetic).toThrow(TradeRefusal);
  });
});
