import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wetFilmOf } from '../../src/facts/wet-film.ts';
import { dryFilmUm } from '../../src/trade/film.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { wetFilmBand } from '../../src/trade/wet-film-band.ts';

const sheet = { volumeSolids: 80, dft: { min: 100, max: 250 } };

describe('wet film band', () => {
  test('every whole micrometre of the printed band dries to within the range, and the target lies in it', () => {
    const um = fc.double({ min: 20, max: 400, noNaN: true });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const solids = fc.double({ min: 20, max: 100, noNaN: true });
    const thinner = fc.double({ min: 0, max: 25, noNaN: true });
    fc.assert(
      fc.property(um, um, share, solids, thinner, (x, y, at, volumeSolids, thinnerPct) => {
        const dft = { min: Math.min(x, y), max: Math.max(x, y) };
        const target = dft.min + at * (dft.max - dft.min);
        const found = wetFilmOf({ volumeSolids, dft }, Math.min(dft.max, target), thinnerPct);
        if (found.room === 'exact') return;
        for (const edge of [found.leastUm, found.mostUm, found.wftUm]) {
          const dry = dryFilmUm(edge, volumeSolids, thinnerPct);
          expect(dry).toBeGreaterThanOrEqual(dft.min - 1e-4);
          expect(dry).toBeLessThanOrEqual(dft.max + 1e-4);
        }
      }),
      { seed: 7 },
    );
  });

  test('150 µm of a sheet with 100 to 250 µm at 80 % solids: 188 µm wet, 125 to 312 µm', () => {
    expect(wetFilmOf(sheet, 150, 0)).toEqual({ room: 'band', wftUm: 188, leastUm: 125, mostUm: 312 });
  });

  test.each([
    [100, 'thin'],
    [105, 'thin'],
    [106, 'none'],
    [237, 'none'],
    [238, 'thick'],
    [250, 'thick'],
  ])('a target of %d µm has this end of the range near: %s', (dftUm, edge) => {
    const found = wetFilmBand({ dftUm, dftMinUm: 100, dftMaxUm: 250, volumeSolidsPct: 80, thinnerPct: 0 });
    expect(found.edge).toBe(edge);
  });

  test('a range of one figure leaves no room, and a sheet without a range has no band', () => {
    expect(wetFilmOf({ volumeSolids: 71, dft: { min: 100, max: 100 } }, 100, 0)).toMatchObject({
      room: 'exact',
      wftUm: 141,
    });
    expect(wetFilmOf({ volumeSolids: 71 }, 125, 0)).toMatchObject({ room: 'open', wftUm: 176 });
  });

  test.each([
    ['a target under the range', { dftUm: 99 }, 'dftUm'],
    ['a target over it', { dftUm: 251 }, 'dftUm'],
    ['a range the wrong way round', { dftMinUm: 300 }, 'dftMaxUm'],
    ['no number', { dftUm: Number.NaN }, 'dftUm'],
  ])('%s is refused', (_what, more, field) => {
    const input = { dftUm: 150, dftMinUm: 100, dftMaxUm: 250, volumeSolidsPct: 80, thinnerPct: 0, ...more };
    expect(() => wetFilmBand(input)).toThrow(TradeRefusal);
    expect(() => wetFilmBand(input)).toThrow(field);
  });
});
