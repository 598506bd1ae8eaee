import { describe, expect, test } from 'vitest';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../src/trade/convert.ts';
import { heatBandOf, heatIndexC } from '../../src/trade/heat.ts';
import { COVERALLS_ADD_C, wbgtLimits, wbgtShadeC, wbgtSunC } from '../../src/trade/wbgt.ts';
import type { Sourced } from './row.ts';

const NWS =
  'US National Weather Service heat index equation, wpc.ncep.noaa.gov/html/heatindex_equation.shtml';
const indexF = (f: number, rhPct: number) => celsiusToFahrenheit(heatIndexC(fahrenheitToCelsius(f), rhPct));

interface IndexRow extends Sourced {
  readonly f: number;
  readonly rh: number;
  readonly index: number;
}

// The printed equation worked out by hand, each branch of it: simple average, regression, dry and wet adjustment.
const equation: readonly IndexRow[] = (
  [
    [70, 50, 69.53],
    [75, 60, 75.01],
    [78, 80, 78.63],
    [80, 40, 79.79],
    [80, 70, 82.95],
    [80, 90, 86.34],
    [82, 95, 93.97],
    [85, 100, 107.61],
    [86, 60, 91.1],
    [90, 10, 85.28],
    [90, 40, 90.68],
    [90, 50, 94.6],
    [90, 60, 99.68],
    [90, 70, 105.92],
    [90, 80, 113.33],
    [95, 12, 90.07],
    [95, 40, 98.99],
    [95, 60, 113.09],
    [95, 70, 122.61],
    [100, 5, 92.5],
    [100, 40, 109.26],
    [100, 50, 118.32],
    [100, 60, 129.49],
    [104, 40, 118.88],
    [105, 45, 127.37],
    [110, 40, 135.66],
  ] as const
).map(([f, rh, index]) => ({ f, rh, index, source: NWS, mark: 'definition' as const }));

describe('heat index: the equation', () => {
  test.each(equation)('$f °F and $rh %: $index °F [$mark: $source]', ({ f, rh, index }) => {
    expect(Math.abs(indexF(f, rh) - index)).toBeLessThan(0.05);
  });

  test.each([
    [27, 40, 26.86],
    [27, 80, 29.74],
    [30, 50, 31.05],
    [30, 70, 35.04],
    [32, 60, 37.07],
    [32, 75, 42.31],
    [35, 40, 37.22],
    [35, 60, 45.05],
    [38, 40, 43.42],
    [40, 30, 43.13],
    [40, 45, 51.34],
  ])('the same in Celsius: %d °C and %d %% is %d °C', (c, rh, index) => {
    expect(Math.abs(heatIndexC(c, rh) - index)).toBeLessThan(0.05);
  });
});

// Rows of the chart, 40 to 85 % in steps of 5; the chart rounds, and has no adjustment for wet air over 85 %.
const chart: readonly IndexRow[] = (
  [
    [80, [80, 80, 81, 81, 82, 82, 83, 84, 84, 85]],
    [90, [91, 93, 95, 97, 100, 103, 106, 109, 113, 117]],
    [100, [109, 114, 118, 124, 129, 136]],
    [110, [136]],
  ] as const
).flatMap(([f, row]) =>
  row.map((index, i) => ({
    f,
    rh: 40 + 5 * i,
    index,
    source: 'US National Weather Service heat index chart',
    mark: 'memory' as const,
  })),
);

describe('heat index: the printed chart, within a degree', () => {
  test.each(chart)('$f °F and $rh %: $index °F [$mark: $source]', ({ f, rh, index }) => {
    expect(Math.abs(indexF(f, rh) - index)).toBeLessThanOrEqual(1);
  });

  test.each([
    [90, 40, 'extreme-caution'],
    [88, 40, 'caution'],
    [90, 70, 'danger'],
    [100, 60, 'extreme-danger'],
    [80, 70, 'caution'],
    [78, 50, null],
  ])('%d °F and %d %% lies in the band %s [memory: the same chart]', (f, rh, band) => {
    expect(heatBandOf(heatIndexC(fahrenheitToCelsius(f), rh))).toBe(band);
  });
});

describe('WBGT, worked out by hand from the weights of ISO 7243 (from memory)', () => {
  test.each([
    { wet: 25, globe: 35, air: 30, sun: 27.5, shade: 28 },
    { wet: 25, globe: 40, air: 32, sun: 28.7, shade: 29.5 },
    { wet: 22, globe: 28, air: 26, sun: 23.6, shade: 23.8 },
    { wet: 28, globe: 45, air: 36, sun: 32.2, shade: 33.1 },
  ])('wet $wet, globe $globe, air $air °C', ({ wet, globe, air, sun, shade }) => {
    expect(wbgtSunC(wet, globe, air)).toBeCloseTo(sun, 9);
    expect(wbgtShadeC(wet, globe)).toBeCloseTo(shade, 9);
  });
});

describe('WBGT limits by metabolic rate, NIOSH 2016-106 (formulas from memory, rows worked out by hand)', () => {
  test.each([
    [117, 32.92, 30.74],
    [180, 30.76, 28.1],
    [235, 29.43, 26.47],
    [300, 28.21, 24.97],
    [360, 27.3, 23.86],
    [415, 26.59, 22.99],
    [520, 25.47, 21.6],
  ])('%d W: %d °C used to heat, %d °C new to it', (workW, used, fresh) => {
    const found = wbgtLimits(workW);
    expect(Math.abs(found.usedC - used)).toBeLessThan(0.006);
    expect(Math.abs(found.newC - fresh)).toBeLessThan(0.006);
  });

  test('coveralls add what the ACGIH scheme gives them (from memory)', () => {
    expect(COVERALLS_ADD_C).toEqual({ woven: 0, polyolefin: 1, 'vapour-barrier': 11 });
  });
});
