import { describe, expect, test } from 'vitest';
import { solAirC } from '../../src/trade/sun.ts';
import type { Sourced } from './row.ts';

/**
 * The handbook gives the sun's part as α/ho: 0.026 m²·K/W for light and 0.052 for dark surfaces, and takes 4 K off for a
 * roof, nothing for a wall.
 */
const HANDBOOK = 'ASHRAE Handbook: Fundamentals, sol-air temperature';
const ROOF_W_PER_M2 = 63;

describe('sol-air temperature', () => {
  const rows: readonly ({
    what: string;
    airC: number;
    sunWPerM2: number;
    share: number;
    roof: boolean;
    expected: number;
  } & Sourced)[] = [
    {
      what: 'dark roof',
      airC: 25,
      sunWPerM2: 800,
      share: 0.052,
      roof: true,
      expected: 62.6,
      source: HANDBOOK,
      mark: 'memory',
    },
    {
      what: 'light roof',
      airC: 25,
      sunWPerM2: 800,
      share: 0.026,
      roof: true,
      expected: 41.8,
      source: HANDBOOK,
      mark: 'memory',
    },
    {
      what: 'dark wall',
      airC: 33,
      sunWPerM2: 500,
      share: 0.052,
      roof: false,
      expected: 59,
      source: HANDBOOK,
      mark: 'memory',
    },
    {
      what: 'shade',
      airC: 31,
      sunWPerM2: 0,
      share: 0.052,
      roof: false,
      expected: 31,
      source: HANDBOOK,
      mark: 'memory',
    },
  ];
  test.each(rows)('$what in air of $airC °C and $sunWPerM2 W/m²: $expected °C [$mark: $source]', (row) => {
    const film = 17;
    const found = solAirC({
      airC: row.airC,
      sunWPerM2: row.sunWPerM2,
      absorptance: row.share * film,
      filmWPerM2K: film,
      skyLossWPerM2: row.roof ? ROOF_W_PER_M2 : 0,
    });
    // The 4 K of a roof is a rounded figure: 63/17 is 3.7.
    expect(Math.abs(found - row.expected)).toBeLessThan(0.35);
  });

  test("the absorptances of hoses are the handbook's two, at its ho of 17 W/(m²·K)", () => {
    expect(0.9 / 17).toBeCloseTo(0.052, 2);
    const surface = { airC: 20, sunWPerM2: 1000, filmWPerM2K: 17, skyLossWPerM2: 0 };
    expect(Math.abs(solAirC({ ...surface, absorptance: 0.9 }) - (20 + 52))).toBeLessThan(1);
    expect(Math.abs(solAirC({ ...surface, absorptance: 0.45 }) - (20 + 26))).toBeLessThan(0.5);
  });
});
