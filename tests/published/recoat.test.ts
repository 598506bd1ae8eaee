import { describe, expect, test } from 'vitest';
import { heldSurfaceC, recoatReadingMinutes, recoatWindow } from '../../src/trade/recoat.ts';

/**
 * US Navy UFGS 09971 (c. 2000), polyurethane over polyurethane: recoat windows by the highest surface temperature held
 * for an hour or more since the coat below. Bands in °F there; the °C are ours, each band's warm end rounded down so
 * that it never reaches into a hotter band. Read at ufgscriteriadocreport.tpub.com/09971/099710028.htm
 */
const bands = [
  { fromF: 60, toF: 70, toC: 21, minHours: 8, maxHours: 48 },
  { fromF: 71, toF: 80, toC: 26, minHours: 6, maxHours: 48 },
  { fromF: 81, toF: 90, toC: 32, minHours: 4, maxHours: 36 },
  { fromF: 91, toF: 100, toC: 37, minHours: 3, maxHours: 24 },
  { fromF: 101, toF: 110, toC: 43, minHours: 2, maxHours: 12 },
  { fromF: 111, toF: 120, toC: 48, minHours: 1, maxHours: 2 },
] as const;
const table = bands.map(({ toC, minHours, maxHours }) => ({ toC, minHours, maxHours }));

const HOUR = 3_600_000;
const COAT = Date.UTC(2026, 5, 8, 8, 0);

/** The window of a coat whose steel has been at `c` °C all along, in hours. */
function hoursAt(c: number) {
  const window = recoatWindow({ table, firstAt: COAT, lastAt: COAT, steel: [{ at: COAT, c }] });
  if (!window?.closes) throw new Error('this table has an end in every row');
  return {
    min: (window.opensAt - COAT) / HOUR,
    max: (window.closes.at - COAT) / HOUR,
    known: window.closes.maxHours !== null,
  };
}

describe('UFGS 09971, polyurethane over polyurethane', () => {
  test.each(bands)('$fromF to $toF °F: $minHours to $maxHours h', ({ toC, minHours, maxHours }) => {
    const colder = bands.filter((band) => band.toC < toC).at(-1)?.toC ?? 16;
    for (const c of [colder + 0.1, (colder + toC) / 2, toC])
      expect(hoursAt(c), `${c} °C`).toEqual({ min: minHours, max: maxHours, known: true });
  });

  test('at an edge the band that ends there counts, a tenth above it the next one', () => {
    for (const [i, band] of bands.slice(0, -1).entries()) {
      const next = bands[i + 1];
      expect(hoursAt(band.toC)).toMatchObject({ min: band.minHours, max: band.maxHours });
      expect(hoursAt(band.toC + 0.1)).toMatchObject({ min: next?.minHours, max: next?.maxHours });
    }
  });

  test('above the last band there is no figure, only the hour after which nothing is known', () => {
    expect(hoursAt(48.1)).toEqual({ min: 1, max: 1, known: false });
    expect(hoursAt(60)).toEqual({ min: 1, max: 1, known: false });
  });

  test('the highest temperature held for an hour chooses the band: 59 minutes do not, 60 do', () => {
    const hot = (minutes: number) => [
      { at: COAT, c: 20 },
      { at: COAT + 3 * HOUR, c: 20 },
      { at: COAT + 3 * HOUR + 1, c: 35 },
      { at: COAT + 3 * HOUR + minutes * 60_000, c: 35 },
      { at: COAT + 3 * HOUR + minutes * 60_000 + 1, c: 20 },
    ];
    const end = (minutes: number) =>
      recoatWindow({ table, firstAt: COAT, lastAt: COAT, steel: hot(minutes) })?.closes;
    expect(end(59)).toEqual({ at: COAT + 48 * HOUR, heldC: 20, maxHours: 48 });
    expect(end(60)).toEqual({ at: COAT + 24 * HOUR, heldC: 35, maxHours: 24 });
    expect(heldSurfaceC(hot(59), COAT, COAT + 6 * HOUR)).toBe(20);
    expect(heldSurfaceC(hot(60), COAT, COAT + 6 * HOUR)).toBe(35);
  });

  test('readings hourly, every half hour above 38 °C', () => {
    expect(recoatReadingMinutes(20)).toBe(60);
    expect(recoatReadingMinutes(38)).toBe(60);
    expect(recoatReadingMinutes(38.1)).toBe(30);
  });

  /**
   * Worked out by hand from the table's ends, 28 °C apart: 8 h to 1 h is a factor 8^(10/28) = 2.10 in 10 °C, 48 h to 2 h
   * is 24^(10/28) = 3.11. A maximum taken along with the usual factor of two would close far too late.
   */
  test('the end shrinks faster with heat than the start, so it is never scaled by the usual factor', () => {
    const degrees = ((111 + 120) / 2 - (60 + 70) / 2) / 1.8;
    const factor = (colder: number, hotter: number) => (colder / hotter) ** (10 / degrees);
    expect(factor(hoursAt(18).min, hoursAt(46).min)).toBeCloseTo(2.1, 1);
    expect(factor(hoursAt(18).max, hoursAt(46).max)).toBeCloseTo(3.1, 1);
    const byFactorTwo = hoursAt(18).max / 2 ** (degrees / 10);
    expect(byFactorTwo).toBeGreaterThan(3 * hoursAt(46).max);
  });
});
