import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseQuantity } from '../../src/units/parse.ts';
import { type QuantityUnit, quantities, quantityUnits } from '../../src/units/quantity.ts';
import { figureText } from '../../src/units/write.ts';

const read = (text: string, unit: QuantityUnit, plain: 'metric' | 'us' = 'metric') => {
  const found = parseQuantity(text, unit, plain);
  return found.ok ? found.metric : found.reason;
};

describe('a figure with its unit', () => {
  test.each<[string, QuantityUnit, number]>([
    ['20', '°C', 20],
    ['20,5 C', '°C', 20.5],
    ['68 °F', '°C', 20],
    ['68F', '°C', 20],
    ['−4 °F', '°C', -20],
    ['5.4 F', 'Δ°C', 3],
    ['1 gal', 'L', 3.785411784],
    ['2 US gal', 'L', 7.570823568],
    ['8 l', 'L', 8],
    ['80 psi', 'bar', 5.5158],
    ['6 mils', 'µm', 152.4],
    ['150 um', 'µm', 150],
    ['3/8 in', 'mm', 9.525],
    ['1 1/4"', 'mm', 31.75],
    ['50 ft', 'm', 15.24],
    ['-40 ft', 'm', -12.192],
    ['100 sq ft', 'm²', 9.2903],
    ['100 cfm', 'm³/min', 2.8317],
  ])('%s for %s', (text, unit, metric) => {
    expect(read(text, unit)).toBeCloseTo(metric, 3);
  });

  test('without a unit it is in the units of the site', () => {
    expect(read('68', '°C', 'us')).toBeCloseTo(20, 9);
    expect(read('20 C', '°C', 'us')).toBe(20);
  });

  test.each<[string, QuantityUnit, string]>([
    ['warm', '°C', 'not-a-number'],
    ['', 'L', 'not-a-number'],
    ['1 250', 'm²', 'not-a-number'],
    ['1/0', 'mm', 'not-a-number'],
    ['20 bar', '°C', 'wrong-unit'],
    ['20 K', '°C', 'wrong-unit'],
    ['5 imp gal', 'L', 'imperial'],
    ['5 UK gal', 'L', 'imperial'],
    ['-500 F', '°C', 'not-a-number'],
  ])('"%s" for %s is refused: %s', (text, unit, reason) => {
    expect(read(text, unit)).toBe(reason);
  });
});

test('what is written in either units is read back as what it was, to the step it is written in', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...quantityUnits),
      fc.constantFrom('metric' as const, 'us' as const),
      fc.double({ min: 1, max: 1000, noNaN: true }),
      (unit, units, value) => {
        const back = parseQuantity(
          `${figureText(unit, value, units, 'en')} ${quantities[unit][units].sign}`,
          unit,
          'metric',
        );
        expect(back.ok).toBe(true);
        const step = 10 ** -quantities[unit][units].decimals;
        const there = (metric: number) => (units === 'us' ? quantities[unit].toUs(metric) : metric);
        if (back.ok) expect(Math.abs(there(back.metric) - there(value))).toBeLessThanOrEqual(step);
      },
    ),
    { seed: 11 },
  );
});
