import { describe, expect, test } from 'vitest';
import {
  micronsToMils,
  milsToMicrons,
  squareFeetToSquareMetres,
  usGallonsToLitres,
} from '../../src/trade/convert.ts';
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
import { wetFilmBand } from '../../src/trade/wet-film-band.ts';
import type { Sourced } from './row.ts';

const GEOMETRY: Sourced = { source: '1 L is a layer of 1 µm on 1000 m²', mark: 'definition' };
const SOLIDS: Sourced = {
  source: 'volume solids: dry film per wet film of unthinned paint',
  mark: 'definition',
};
const UFC: Sourced = {
  source: 'US DoD UFC 3-190-06, section 2.1.5 (factor rounded to 1600)',
  mark: 'read',
};

const ft2PerGallon = (mils: number, solids: number, loss = 0) =>
  spreadingRateFt2PerUsGallon(milsToMicrons(mils), solids, loss);

describe('spreading rate, m² per litre', () => {
  const rows: readonly ({ vs: number; um: number; expected: number } & Sourced)[] = [
    { vs: 65, um: 125, expected: 5.2, ...GEOMETRY },
    { vs: 71, um: 125, expected: 5.68, ...GEOMETRY },
    { vs: 50, um: 50, expected: 10, ...GEOMETRY },
    { vs: 60, um: 100, expected: 6, ...GEOMETRY },
    { vs: 80, um: 200, expected: 4, ...GEOMETRY },
    { vs: 100, um: 1000, expected: 1, ...GEOMETRY },
    { vs: 75, um: 150, expected: 5, ...GEOMETRY },
    { vs: 55, um: 75, expected: 7.3333, ...GEOMETRY },
    { vs: 47, um: 40, expected: 11.75, ...GEOMETRY },
  ];
  test.each(rows)('$vs % solids, $um µm: $expected [$mark: $source]', ({ vs, um, expected }) => {
    expect(Math.abs(spreadingRateM2PerL(um, vs) - expected)).toBeLessThan(0.001);
  });
});

describe('spreading rate, ft² per US gallon', () => {
  const rows: readonly ({ vs: number; mil: number; loss: number; expected: number } & Sourced)[] = [
    { vs: 100, mil: 1, loss: 0, expected: 1600, ...UFC },
    { vs: 100, mil: 2, loss: 0, expected: 800, ...UFC },
    { vs: 100, mil: 4, loss: 0, expected: 400, ...UFC },
    { vs: 50, mil: 2, loss: 0, expected: 400, ...UFC },
    { vs: 50, mil: 4, loss: 0, expected: 200, ...UFC },
    {
      vs: 52,
      mil: 1.5,
      loss: 70,
      expected: 167,
      source: 'Paints and Coatings Resource Center, worked example at 30 % transfer efficiency',
      mark: 'read',
    },
    {
      vs: 100,
      mil: 1,
      loss: 0,
      expected: 1604.17,
      source: 'US gallon of 231 cubic inches',
      mark: 'definition',
    },
    {
      vs: 65,
      mil: 5,
      loss: 0,
      expected: 208.54,
      source: 'US gallon of 231 cubic inches',
      mark: 'definition',
    },
    {
      vs: 46,
      mil: 2.5,
      loss: 0,
      expected: 295.17,
      source: 'US gallon of 231 cubic inches',
      mark: 'definition',
    },
    {
      vs: 56,
      mil: 2.5,
      loss: 0,
      expected: 359.33,
      source: 'US gallon of 231 cubic inches',
      mark: 'definition',
    },
    {
      vs: 35,
      mil: 2,
      loss: 0,
      expected: 280.73,
      source: 'US gallon of 231 cubic inches',
      mark: 'definition',
    },
    { vs: 72, mil: 2, loss: 0, expected: 577.5, source: 'US gallon of 231 cubic inches', mark: 'definition' },
  ];
  test.each(rows)('$vs % solids, $mil mil, $loss % lost: $expected [$mark: $source]', (row) => {
    const within = row.mark === 'definition' ? 1e-4 : 0.005;
    const found = ft2PerGallon(row.mil, row.vs, row.loss);
    expect(Math.abs(found - row.expected) / row.expected).toBeLessThan(within);
  });

  // The misprint is shown by the source's own neighbours: it has 400 for 2 mil and 200 for 4 mil at 50 %, and 1600 for
  // 1 mil at 100 %, and half the film or half the solids can only be twice or half of these.
  test('UFC 3-190-06 prints 600 for 50 % solids at 1 mil in the copy read; by its own rule it is 800', () => {
    expect(Math.abs(ft2PerGallon(1, 50) / 600 - 1)).toBeGreaterThan(0.3);
    expect(ft2PerGallon(1, 50) / 800).toBeCloseTo(1, 2);
    expect(ft2PerGallon(1, 50)).toBeCloseTo(ft2PerGallon(1, 100) / 2, 6);
    expect(ft2PerGallon(1, 50)).toBeCloseTo(2 * ft2PerGallon(2, 50), 6);
  });

  test('1 ft² per US gallon is 0.0245424 m² per litre', () => {
    expect(squareFeetToSquareMetres(1) / usGallonsToLitres(1)).toBeCloseTo(0.0245424, 7);
  });
});

describe('wet film for a dry film', () => {
  const rows: readonly ({ vs: number; dft: number; thinner: number; expected: number } & Sourced)[] = [
    { vs: 71, dft: 125, thinner: 0, expected: 176.056, ...SOLIDS },
    { vs: 80, dft: 200, thinner: 0, expected: 250, ...SOLIDS },
    { vs: 60, dft: 100, thinner: 10, expected: 183.333, ...SOLIDS },
    { vs: 50, dft: 75, thinner: 5, expected: 157.5, ...SOLIDS },
    { vs: 75, dft: 150, thinner: 8, expected: 216, ...SOLIDS },
    { vs: 47, dft: 60, thinner: 25, expected: 159.574, ...SOLIDS },
  ];
  test.each(rows)('$vs % solids, $dft µm, $thinner % thinner: $expected µm [$mark: $source]', (row) => {
    expect(Math.abs(wetFilmUm(row.dft, row.vs, row.thinner) - row.expected)).toBeLessThan(0.01);
  });

  test.each([
    { thinner: 0, expected: 8 },
    { thinner: 10, expected: 8.8 },
  ])('35 % solids, 2.8 mil, $thinner % thinner: $expected mil', ({ thinner, expected }) => {
    expect(micronsToMils(wetFilmUm(milsToMicrons(2.8), 35, thinner))).toBeCloseTo(expected, 3);
  });
});

describe('dry film from a wet film', () => {
  test.each([
    { vs: 60, wft: 200, thinner: 0, expected: 120 },
    { vs: 71, wft: 200, thinner: 10, expected: 129.0909 },
  ])('$vs % solids, $wft µm, $thinner % thinner: $expected µm', ({ vs, wft, thinner, expected }) => {
    expect(Math.abs(dryFilmUm(wft, vs, thinner) - expected)).toBeLessThan(0.001);
  });

  test.each([
    { vs: 35, mil: 8, thinner: 0, expected: 2.8 },
    { vs: 35, mil: 8, thinner: 10, expected: 2.5455 },
    { vs: 25, mil: 10, thinner: 0, expected: 2.5 },
    { vs: 25, mil: 4, thinner: 0, expected: 1 },
  ])('$vs % solids, $mil mil, $thinner % thinner: $expected mil', ({ vs, mil, thinner, expected }) => {
    expect(Math.abs(micronsToMils(dryFilmUm(milsToMicrons(mil), vs, thinner)) - expected)).toBeLessThan(
      0.001,
    );
  });
});

describe('wet film band from the range on the sheet', () => {
  const rows: readonly ({
    dft: number;
    vs: number;
    thinner: number;
    band: readonly [number, number, number];
  } & Sourced)[] = [
    { dft: 150, vs: 80, thinner: 0, band: [125, 187.5, 312.5], ...SOLIDS },
    { dft: 150, vs: 80, thinner: 5, band: [131.25, 196.875, 328.125], ...SOLIDS },
  ];
  test.each(rows)('$dft µm of 100 to 250 µm, $vs % solids, $thinner % thinner [$mark: $source]', (row) => {
    const { dft: dftUm, vs: volumeSolidsPct, thinner: thinnerPct } = row;
    const found = wetFilmBand({ dftUm, dftMinUm: 100, dftMaxUm: 250, volumeSolidsPct, thinnerPct });
    expect([found.leastUm, found.targetUm, found.mostUm]).toEqual(
      row.band.map((um) => expect.closeTo(um, 9)),
    );
    expect(found.edge).toBe('none');
  });
});

describe('volume solids after thinning, thinner counted on the paint', () => {
  test.each([
    { vs: 71, thinner: 10, expected: 64.5455 },
    { vs: 71, thinner: 5, expected: 67.619 },
    { vs: 60, thinner: 10, expected: 54.5455 },
    { vs: 50, thinner: 25, expected: 40 },
    { vs: 80, thinner: 0, expected: 80 },
  ])('$vs % thinned by $thinner %: $expected %', ({ vs, thinner, expected }) => {
    expect(Math.abs(thinnedSolidsPct(vs, thinner) - expected)).toBeLessThan(0.01);
  });
});

describe('litres for an area', () => {
  const rows: readonly ({
    area: number;
    dft: number;
    vs: number;
    loss: number;
    profile: number;
    expected: number;
  } & Sourced)[] = [
    { area: 500, dft: 125, vs: 71, loss: 0, profile: 0, expected: 88.028, ...GEOMETRY },
    { area: 500, dft: 125, vs: 71, loss: 30, profile: 0, expected: 125.755, ...GEOMETRY },
    { area: 1000, dft: 75, vs: 50, loss: 40, profile: 0, expected: 250, ...GEOMETRY },
    { area: 250, dft: 200, vs: 80, loss: 35, profile: 20, expected: 105.769, ...GEOMETRY },
    { area: 120, dft: 60, vs: 55, loss: 25, profile: 35, expected: 27.636, ...GEOMETRY },
    { area: 1, dft: 1000, vs: 100, loss: 0, profile: 0, expected: 1, ...GEOMETRY },
    { area: 100, dft: 50, vs: 50, loss: 30, profile: 0, expected: 14.286, ...GEOMETRY },
  ];
  test.each(rows)('$area m², $dft + $profile µm, $vs % solids, $loss % lost: $expected L', (row) => {
    const found = litresNeeded({
      areaM2: row.area,
      dftUm: row.dft,
      volumeSolidsPct: row.vs,
      lossPct: row.loss,
      profileAllowanceUm: row.profile,
    });
    expect(Math.abs(found - row.expected)).toBeLessThan(0.01);
  });

  test.each([
    { loss: 30, extra: 42.857 },
    { loss: 45, extra: 81.818 },
  ])('losing $loss % of the paint used needs $extra % on top of the theory', ({ loss, extra }) => {
    const litres = (lossPct: number) =>
      litresNeeded({ areaM2: 100, dftUm: 100, volumeSolidsPct: 50, lossPct });
    expect((litres(loss) / litres(0) - 1) * 100).toBeCloseTo(extra, 2);
    expect(extraPctFromLossPct(loss)).toBeCloseTo(extra, 2);
    expect(lossPctFromExtraPct(extra)).toBeCloseTo(loss, 2);
  });

  test('45 % lost is a factor of 1.818 on the theory, 0.55 on the spreading rate (worked out by hand)', () => {
    expect(1 + extraPctFromLossPct(45) / 100).toBeCloseTo(1.818, 3);
    expect(spreadingRateM2PerL(100, 50, 45) / spreadingRateM2PerL(100, 50)).toBeCloseTo(0.55, 9);
  });

  // Common practice, no source: solids that fill a blast profile, as a layer of 0.667 of Rz. Checked as arithmetic only.
  test('a profile of 75 µm that takes 50 µm of solids: 14.286 L for 100 m² at 50 % solids and 30 % lost', () => {
    const filled = (dftUm: number, profileAllowanceUm: number) =>
      litresNeeded({ areaM2: 100, dftUm, volumeSolidsPct: 50, lossPct: 30, profileAllowanceUm });
    expect(filled(100, 50) - filled(100, 0)).toBeCloseTo(14.286, 3);
  });
});
