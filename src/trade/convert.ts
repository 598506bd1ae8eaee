import { inRange } from './refusal.ts';

/**
 * The one place where units are converted. Everything else in the core works in bar, °C, litres, metres, m², µm and mm.
 * All factors are exact by definition (international inch and pound of 1959, US gallon of 231 cubic inches).
 * Every function throws TradeRefusal for NaN, an infinity, a negative amount or a size no site has.
 */
const MM_PER_INCH = 25.4;
const BAR_PER_PSI = 0.0689475729316836;
const LITRES_PER_US_GALLON = 3.785411784;
const METRES_PER_FOOT = 0.3048;
const SQUARE_METRES_PER_SQUARE_FOOT = METRES_PER_FOOT * METRES_PER_FOOT;
const MICRONS_PER_MIL = 25.4;
const ABSOLUTE_ZERO_C = -273.15;
const LARGEST = 1e9;

const amount = (field: string, value: number, unit: string) =>
  inRange(field, value, 0, LARGEST, unit, 'An amount cannot be negative or endless.');

const difference = (field: string, value: number, unit: string) =>
  inRange(field, value, -LARGEST, LARGEST, unit, 'A difference must be a plain number.');

/** Pounds-force per square inch to bar. */
export const psiToBar = (psi: number): number => amount('psi', psi, 'psi') * BAR_PER_PSI;
/** Bar to pounds-force per square inch. */
export const barToPsi = (bar: number): number => amount('bar', bar, 'bar') / BAR_PER_PSI;

/** A temperature on the Fahrenheit scale to °C. Not for differences: see `fahrenheitDifferenceToCelsius`. */
export const fahrenheitToCelsius = (f: number): number =>
  (inRange('f', f, ABSOLUTE_ZERO_C * 1.8 + 32, LARGEST, '°F', 'Nothing is colder than absolute zero.') - 32) /
  1.8;
/** A temperature in °C to the Fahrenheit scale. Not for differences: see `celsiusDifferenceToFahrenheit`. */
export const celsiusToFahrenheit = (c: number): number =>
  inRange('c', c, ABSOLUTE_ZERO_C, LARGEST, '°C', 'Nothing is colder than absolute zero.') * 1.8 + 32;

/** A temperature difference, such as a dew-point margin: 5 °F is 2.78 °C, not −15 °C. */
export const fahrenheitDifferenceToCelsius = (f: number): number => difference('f', f, '°F') / 1.8;
/** A temperature difference, such as a dew-point margin: 3 °C is 5.4 °F, not 37.4 °F. */
export const celsiusDifferenceToFahrenheit = (c: number): number => difference('c', c, '°C') * 1.8;

/** US liquid gallons to litres. Not imperial gallons. */
export const usGallonsToLitres = (gallons: number): number =>
  amount('gallons', gallons, 'US gal') * LITRES_PER_US_GALLON;
/** Litres to US liquid gallons. Not imperial gallons. */
export const litresToUsGallons = (litres: number): number =>
  amount('litres', litres, 'L') / LITRES_PER_US_GALLON;

/** Feet to metres. */
export const feetToMetres = (feet: number): number => amount('feet', feet, 'ft') * METRES_PER_FOOT;
/** Metres to feet. */
export const metresToFeet = (metres: number): number => amount('metres', metres, 'm') / METRES_PER_FOOT;

/** Square feet to square metres. */
export const squareFeetToSquareMetres = (squareFeet: number): number =>
  amount('squareFeet', squareFeet, 'ft²') * SQUARE_METRES_PER_SQUARE_FOOT;
/** Square metres to square feet. */
export const squareMetresToSquareFeet = (squareMetres: number): number =>
  amount('squareMetres', squareMetres, 'm²') / SQUARE_METRES_PER_SQUARE_FOOT;

/** Mils (thousandths of an inch) to micrometres. */
export const milsToMicrons = (mils: number): number => amount('mils', mils, 'mil') * MICRONS_PER_MIL;
/** Micrometres to mils (thousandths of an inch). */
export const micronsToMils = (microns: number): number => amount('microns', microns, 'µm') / MICRONS_PER_MIL;

/** Inches to millimetres, for bores, fans and orifices. */
export const inchesToMillimetres = (inches: number): number => amount('inches', inches, 'in') * MM_PER_INCH;
/** Millimetres to inches, for bores, fans and orifices. */
export const millimetresToInches = (millimetres: number): number =>
  amount('millimetres', millimetres, 'mm') / MM_PER_INCH;
