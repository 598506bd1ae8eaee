import { describe, expect, test } from 'vitest';
import {
  kitFault,
  offRatio,
  RATIO_TOLERANCE_PCT,
  ratioFault,
  splitMix,
  thinnerFault,
} from '../../src/trade/mix.ts';
import type { Sourced } from './row.ts';

const RATIO: Sourced = { source: 'parts by volume', mark: 'definition' };
const NAVY: Sourced = {
  source: 'NAVFAC MO-124: US Navy epoxy-polyamide MIL-P-24441 is mixed 1:1 by volume',
  mark: 'read',
};

interface MixRow extends Sourced {
  readonly ratioA: number;
  readonly ratioB: number;
  readonly mixedLitres: number;
  readonly thinnerPct: number;
  readonly expected: { aL: number; bL: number; thinnerL: number; totalL: number };
}

const row = (
  ratioA: number,
  ratioB: number,
  mixedLitres: number,
  thinnerPct: number,
  [aL, bL, thinnerL, totalL]: readonly [number, number, number, number],
  sourced: Sourced = RATIO,
): MixRow => ({
  ratioA,
  ratioB,
  mixedLitres,
  thinnerPct,
  expected: { aL, bL, thinnerL, totalL },
  ...sourced,
});

const mixes: readonly MixRow[] = [
  row(4, 1, 20, 0, [16, 4, 0, 20]),
  row(4, 1, 20, 5, [16, 4, 1, 21]),
  row(3, 1, 20, 10, [15, 5, 2, 22]),
  row(1, 1, 10, 0, [5, 5, 0, 10], NAVY),
  row(9, 1, 5, 0, [4.5, 0.5, 0, 5]),
  row(2.5, 1, 17.5, 0, [12.5, 5, 0, 17.5]),
  row(6, 1, 14, 3, [12, 2, 0.42, 14.42]),
  row(10, 1, 22, 0, [20, 2, 0, 22]),
];

describe('splitting a mix by volume', () => {
  test.each(mixes)(
    '$ratioA:$ratioB, $mixedLitres L, $thinnerPct % thinner [$mark: $source]',
    ({ expected, ...input }) => {
      const found = splitMix(input);
      for (const part of ['aL', 'bL', 'thinnerL', 'totalL'] as const)
        expect(found[part], part).toBeCloseTo(expected[part], 9);
    },
  );
});

describe('off ratio', () => {
  test('7.5 L of base at 4:1 needs 1.875 L of hardener', () => {
    const found = offRatio({ ratioA: 4, ratioB: 1, aL: 7.5, bL: 1.875 });
    expect(found).toEqual({ actualRatio: 4, hardenerErrorPct: 0 });
  });

  test('16 L of base with 3.5 L of hardener instead of 4 L is 4.571:1 and an eighth short', () => {
    const found = offRatio({ ratioA: 4, ratioB: 1, aL: 16, bL: 3.5 });
    expect(found.actualRatio).toBeCloseTo(4.571, 3);
    expect(found.hardenerErrorPct).toBeCloseTo(-12.5, 9);
  });
});

const UFGS: Sourced = {
  source:
    'Unified Facilities Guide Specification 09971: no part kits, no other ratio, thinner within the limit',
  mark: 'read',
};

describe(`what is refused [${UFGS.mark}: ${UFGS.source}]`, () => {
  test('16 L of base with 3.5 L of hardener at 4:1 is refused: 4 L were needed, an eighth is short', () => {
    expect(ratioFault({ ratioA: 4, ratioB: 1, aL: 16, bL: 3.5 })).toEqual({
      kind: 'off-ratio',
      neededBL: 4,
      actualRatio: expect.closeTo(4.571, 3),
      hardenerErrorPct: expect.closeTo(-12.5, 9),
    });
    expect(ratioFault({ ratioA: 4, ratioB: 1, aL: 7.5, bL: 1.875 })).toBeNull();
  });

  test('the limit of the hardener error is 5 % (from memory: a common limit), and exactly 5 % is taken', () => {
    expect(RATIO_TOLERANCE_PCT).toBe(5);
    expect(ratioFault({ ratioA: 4, ratioB: 1, aL: 16, bL: 4.2 })).toBeNull();
    expect(ratioFault({ ratioA: 4, ratioB: 1, aL: 16, bL: 3.8 })).toBeNull();
    expect(ratioFault({ ratioA: 4, ratioB: 1, aL: 16, bL: 4.22 })).not.toBeNull();
  });

  test('30 L are no whole 20 L kits: one is 20 L, two are 40 L', () => {
    const two = { count: 2, litres: 40 };
    expect(kitFault(30, 20)).toEqual({ kind: 'part-kit', below: { count: 1, litres: 20 }, above: two });
    expect(kitFault(40, 20)).toBeNull();
  });

  test('10 % thinner is counted on the paint: 2 L in 20 L are 10 %, not 9.09 % of the total', () => {
    expect(thinnerFault(20, 2, 10)).toBeNull();
    expect(thinnerFault(20, 2, 9.09)).toMatchObject({ foundPct: 10, mostPct: 9.09 });
  });
});
