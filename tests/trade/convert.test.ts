import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as convert from '../../src/trade/convert.ts';

const pairs = [
  ['psi and bar', convert.psiToBar, convert.barToPsi, 0],
  ['°F and °C', convert.fahrenheitToCelsius, convert.celsiusToFahrenheit, -273],
  [
    'differences in °F and °C',
    convert.fahrenheitDifferenceToCelsius,
    convert.celsiusDifferenceToFahrenheit,
    -10_000,
  ],
  ['US gal and L', convert.usGallonsToLitres, convert.litresToUsGallons, 0],
  ['ft and m', convert.feetToMetres, convert.metresToFeet, 0],
  ['ft² and m²', convert.squareFeetToSquareMetres, convert.squareMetresToSquareFeet, 0],
  ['mil and µm', convert.milsToMicrons, convert.micronsToMils, 0],
  ['in and mm', convert.inchesToMillimetres, convert.millimetresToInches, 0],
  ['ft³ and m³', convert.cubicFeetToCubicMetres, convert.cubicMetresToCubicFeet, 0],
  ['ft³/min and m³/min', convert.cfmToCubicMetresPerMinute, convert.cubicMetresPerMinuteToCfm, 0],
  ['gal/min and L/min', convert.gpmToLitresPerMinute, convert.litresPerMinuteToGpm, 0],
  ['mph and m/s', convert.mphToMetresPerSecond, convert.metresPerSecondToMph, 0],
  ['lb and kg', convert.poundsToKilograms, convert.kilogramsToPounds, 0],
  [
    'lb/gal and kg/L',
    convert.poundsPerGallonToKilogramsPerLitre,
    convert.kilogramsPerLitreToPoundsPerGallon,
    0,
  ],
  [
    'ft²/gal and m²/L',
    convert.squareFeetPerGallonToSquareMetresPerLitre,
    convert.squareMetresPerLitreToSquareFeetPerGallon,
    0,
  ],
] as const;

test('every conversion of the file is in the round trips', () => {
  const tested = pairs.flatMap(([, there, back]) => [there, back] as unknown[]);
  expect(new Set(tested)).toEqual(new Set<unknown>(Object.values(convert)));
});

describe('round trips', () => {
  test.each(pairs)('%s', (_name, there, back, min) => {
    fc.assert(
      fc.property(fc.double({ min, max: 100_000, noNaN: true }), (value) => {
        const within = 1e-9 * Math.max(1, Math.abs(value));
        expect(Math.abs(back(there(value)) - value)).toBeLessThanOrEqual(within);
        expect(Math.abs(there(back(value)) - value)).toBeLessThanOrEqual(within);
      }),
      { seed: 7 },
    );
  });
});

describe('known values', () => {
  test.each([
    ['freezing', convert.fahrenheitToCelsius(32), 0],
    ['boiling', convert.celsiusToFahrenheit(100), 212],
    ['minus forty meets', convert.fahrenheitToCelsius(-40), -40],
    ['a margin of 5 °F', convert.fahrenheitDifferenceToCelsius(5), 2.7778],
    ['a margin of 3 °C', convert.celsiusDifferenceToFahrenheit(3), 5.4],
    ['a 5 US gallon pail', convert.usGallonsToLitres(5), 18.9271],
    ['a 50 ft hose', convert.feetToMetres(50), 15.24],
    ['100 ft²', convert.squareFeetToSquareMetres(100), 9.2903],
    ['5 mil', convert.milsToMicrons(5), 127],
    ['a 3/8 in bore', convert.inchesToMillimetres(0.375), 9.525],
    ['3300 psi', convert.psiToBar(3300), 227.527],
    // Factors of NIST SP 811, appendix B.8, from memory; all follow exactly from foot, pound and US gallon.
    ['1 ft³', convert.cubicFeetToCubicMetres(1), 0.028317],
    ['100 ft³/min', convert.cfmToCubicMetresPerMinute(100), 2.8317],
    ['1 gal/min', convert.gpmToLitresPerMinute(1), 3.7854],
    ['10 mph', convert.mphToMetresPerSecond(10), 4.4704],
    ['1 lb', convert.poundsToKilograms(1), 0.45359],
    ['10 lb/gal', convert.poundsPerGallonToKilogramsPerLitre(10), 1.19826],
    ['1 m²/L', convert.squareMetresPerLitreToSquareFeetPerGallon(1), 40.7458],
    ['a gun 40 ft below the pump', convert.feetToMetres(-40), -12.192],
  ])('%s', (_name, found, expected) => {
    expect(found).toBeCloseTo(expected, 3);
  });
});
