import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { onePointBounds, potLifeByEnergy, q10OfEnergy } from '../../src/trade/activation.ts';
import { potLifeMinutes } from '../../src/trade/pot-life.ts';

const seed = { seed: 7, numRuns: 300 };
const aPoint = fc.record({
  c: fc.integer({ min: -5, max: 40 }),
  minutes: fc.integer({ min: 10, max: 1440 }),
});
const warmerBy = fc.double({ min: 0, max: 70, noNaN: true });

describe('bounds of a sheet with one line', () => {
  test('they bracket every activation energy from 40 to 70 kJ/mol and every factor from 1.7 to 2.6', () => {
    fc.assert(
      fc.property(
        aPoint,
        warmerBy,
        fc.double({ min: 40, max: 70, noNaN: true }),
        fc.double({ min: 1.7, max: 2.6, noNaN: true }),
        (point, by, ea, q10) => {
          const { earlyMinutes, lateMinutes } = onePointBounds(point, point.c + by);
          const slack = 1 + 1e-9;
          for (const guess of [
            potLifeByEnergy(point.minutes, point.c, point.c + by, ea),
            point.minutes * q10 ** (-by / 10),
          ]) {
            expect(earlyMinutes).toBeLessThanOrEqual(guess * slack);
            expect(guess).toBeLessThanOrEqual(lateMinutes * slack);
          }
          expect(lateMinutes).toBeLessThanOrEqual(point.minutes * slack);
        },
      ),
      seed,
    );
  });

  test('the clock goes by the early one, and warmer never lengthens either', () => {
    fc.assert(
      fc.property(aPoint, warmerBy, warmerBy, (point, x, y) => {
        const [less, more] = x <= y ? [x, y] : [y, x];
        const cooler = onePointBounds(point, point.c + less);
        const warmer = onePointBounds(point, point.c + more);
        expect(warmer.earlyMinutes).toBeLessThanOrEqual(cooler.earlyMinutes * (1 + 1e-12));
        expect(warmer.lateMinutes).toBeLessThanOrEqual(cooler.lateMinutes * (1 + 1e-12));
        expect(potLifeMinutes([point], point.c + more).minutes).toBe(warmer.earlyMinutes);
      }),
      seed,
    );
  });

  test('colder gives no credit: both ends are the figure of the line', () => {
    for (const c of [20, 19.9, 5, -20])
      expect(onePointBounds({ c: 20, minutes: 240 }, c)).toEqual({ earlyMinutes: 240, lateMinutes: 240 });
  });
});

describe('the law', () => {
  test('there and back is where it began', () => {
    const there = potLifeByEnergy(240, 21, 35, 55);
    expect(potLifeByEnergy(there, 35, 21, 55)).toBeCloseTo(240, 9);
  });

  test('51.2 kJ/mol from 20 to 30 °C is the halving rule', () => {
    expect(q10OfEnergy(51.2, 20)).toBeCloseTo(2, 3);
    expect(potLifeByEnergy(120, 20, 30, 51.2)).toBeCloseTo(60, 1);
  });

  test.each([
    { call: () => potLifeByEnergy(0, 20, 30, 50), field: 'minutes' },
    { call: () => potLifeByEnergy(120, 20, 280, 50), field: 'c' },
    { call: () => potLifeByEnergy(120, Number.NaN, 30, 50), field: 'refC' },
    { call: () => potLifeByEnergy(120, 20, 30, 5), field: 'kJPerMol' },
    { call: () => q10OfEnergy(50, 115), field: 'fromC' },
    { call: () => q10OfEnergy(Number.POSITIVE_INFINITY, 20), field: 'kJPerMol' },
    { call: () => onePointBounds({ c: 90, minutes: 60 }, 20), field: 'point.c' },
    { call: () => onePointBounds({ c: 20, minutes: -1 }, 20), field: 'minutes' },
  ])('$field out of range is refused, with the field named', ({ call, field }) => {
    expect(call).toThrow(expect.objectContaining({ name: 'TradeRefusal', field }));
  });
});
