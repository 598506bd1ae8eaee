import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dryFilmUm,
  litresNeeded,
  spreadingRateM2PerL,
  thinnedSolidsPct,
  wetFilmUm,
} from '../../src/trade/film.ts';

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
});
