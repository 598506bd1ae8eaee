import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import {
  airM3PerMin,
  dilutionAirM3PerL,
  litresToLelFraction,
  pctOfLel,
  solventPerLitre,
  steadyPctOfLel,
  vapourLitresPerLitre,
  vapourPct,
} from '../../src/trade/vapour.ts';

const seed = { seed: 11 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const solvents = fc.record({
  lelPct: number(0.5, 7),
  vapourDensity: number(1, 6),
  densityKgPerL: number(0.6, 1.2),
});
const celsius = number(-10, 45);
const fraction = number(1, 50);
const xylene = { lelPct: 1, vapourDensity: 3.7, densityKgPerL: 0.87 };

describe('vapour', () => {
  test('more solvent never lowers the part of the explosive limit', () => {
    fc.assert(
      fc.property(
        solvents,
        celsius,
        number(0, 5),
        number(0, 5),
        number(10, 500),
        (solvent, c, x, y, spaceM3) => {
          const [less, more] = x <= y ? [x, y] : [y, x];
          const at = (litres: number) => pctOfLel({ solvent, c, spaceM3, litres });
          expect(at(more)).toBeGreaterThanOrEqual(at(less));
        },
      ),
      seed,
    );
  });

  test('more air never raises it, and more solvent an hour never lowers it', () => {
    fc.assert(
      fc.property(
        solvents,
        number(0.1, 50),
        number(1, 500),
        number(0, 500),
        (solvent, litresPerHour, air, more) => {
          const at = (airM3PerMin: number, load: number) =>
            steadyPctOfLel({ solvent, c: 20, airM3PerMin, litresPerHour: load });
          expect(at(air + more, litresPerHour)).toBeLessThanOrEqual(at(air, litresPerHour));
          expect(at(air, litresPerHour + more)).toBeGreaterThanOrEqual(at(air, litresPerHour));
        },
      ),
      seed,
    );
  });

  test('the exact air holds an even mixture exactly at the fraction, and is never less than the regulation asks', () => {
    fc.assert(
      fc.property(solvents, celsius, fraction, number(0.1, 100), (solvent, c, fractionPct, litresPerHour) => {
        const air = dilutionAirM3PerL({ solvent, c, fractionPct });
        expect(air.exactM3).toBeGreaterThanOrEqual(air.regulatoryM3);
        expect(air.neededM3).toBe(Math.max(air.exactM3, air.regulatoryM3));
        const blown = airM3PerMin(air.exactM3, litresPerHour);
        expect(steadyPctOfLel({ solvent, c, litresPerHour, airM3PerMin: blown })).toBeCloseTo(fractionPct, 6);
      }),
      seed,
    );
  });

  test('the litres to a fraction make that fraction', () => {
    fc.assert(
      fc.property(solvents, celsius, fraction, number(1, 1000), (solvent, c, fractionPct, spaceM3) => {
        const litres = litresToLelFraction({ solvent, c, fractionPct, spaceM3 });
        expect(pctOfLel({ solvent, c, spaceM3, litres })).toBeCloseTo(fractionPct, 6);
      }),
      seed,
    );
  });

  test('warmer air, higher ground and a stricter fraction never need less air', () => {
    fc.assert(
      fc.property(solvents, fraction, number(0, 20), (solvent, fractionPct, more) => {
        const air = (c: number, pressureHPa: number, pct: number) =>
          dilutionAirM3PerL({ solvent, c, pressureHPa, fractionPct: pct }).neededM3;
        expect(air(20 + more, 1013.25, fractionPct)).toBeGreaterThanOrEqual(air(20, 1013.25, fractionPct));
        expect(air(20, 900 - more, fractionPct)).toBeGreaterThanOrEqual(air(20, 900, fractionPct));
        expect(air(20, 900, fractionPct)).toBeGreaterThanOrEqual(air(20, 900, fractionPct + more));
      }),
      seed,
    );
  });

  test('paint gives off what is not solid, and its thinner: 60 % solids with 10 % thinner is 0.4 and 0.1 L', () => {
    expect(solventPerLitre(60, 10)).toEqual({ fromPaintL: 0.4, fromThinnerL: 0.1 });
    expect(solventPerLitre(100, 0)).toEqual({ fromPaintL: 0, fromThinnerL: 0 });
  });

  test.each([
    [
      'no vapour density',
      () => vapourLitresPerLitre({ ...xylene, vapourDensity: 0 }, { c: 20 }),
      'vapourDensity',
    ],
    [
      'a limit of 0 %',
      () => dilutionAirM3PerL({ solvent: { ...xylene, lelPct: 0 }, c: 20, fractionPct: 10 }),
      'lelPct',
    ],
    [
      'all of the limit and more',
      () => dilutionAirM3PerL({ solvent: xylene, c: 20, fractionPct: 101 }),
      'fractionPct',
    ],
    ['no space', () => vapourPct({ solvent: xylene, c: 20, litres: 1, spaceM3: 0 }), 'spaceM3'],
    [
      'no number of litres',
      () => pctOfLel({ solvent: xylene, c: 20, litres: Number.NaN, spaceM3: 9 }),
      'litres',
    ],
    ['more vapour than space', () => vapourPct({ solvent: xylene, c: 20, litres: 50, spaceM3: 1 }), 'litres'],
    [
      'no air at all',
      () => steadyPctOfLel({ solvent: xylene, c: 20, litresPerHour: 1, airM3PerMin: 0 }),
      'airM3PerMin',
    ],
    ['an oven', () => vapourLitresPerLitre(xylene, { c: 80 }), 'c'],
    [
      'the pressure of a vacuum pump',
      () => vapourLitresPerLitre(xylene, { c: 20, pressureHPa: 10 }),
      'pressureHPa',
    ],
    ['endless load', () => airM3PerMin(100, Number.POSITIVE_INFINITY), 'litres'],
    ['solids over 100 %', () => solventPerLitre(101, 0), 'volumeSolidsPct'],
  ])('%s is refused by name', (_what, arithmetic, field) => {
    try {
      arithmetic();
      expect.unreachable('it gave a number');
    } catch (error) {
      expect(error).toBeInstanceOf(TradeRefusal);
      expect((error as TradeRefusal).field).toBe(field);
    }
  });
});
