import { inRange } from './refusal.ts';

/**
 * The one place where units are converted. Everything else in the core works in bar, °C, litres, metres, m², µm and mm.
 * All factors follow exactly from definitions: the international yard and pound agreement of 1959 (1 in = 25.4 mm,
 * 1 lb = 0.45359237 kg), the US gallon of 231 cubic inches, standard gravity of 9.80665 m/s². Source: NIST SP 811 (2008),
 * appendix B, and NIST Handbook 44, appendix C.
 * Every function throws TradeRefusal for NaN, an infinity, a negative amount or a size no site has.
 */
const MM_PER_INCH = 25.4;
const METRES_PER_FOOT = 0.3048;
const KG_PER_POUND = 0.45359237;
/** Pounds-force on a square inch: 4.4482216152605 N on 645.16 mm². */
const BAR_PER_PSI = (KG_PER_POUND * 9.80665) / (MM_PER_INCH * MM_PER_INCH) / 0.1;
/** 231 cubic inches. */
const LITRES_PER_US_GALLON = 3.785411784;
const SQUARE_METRES_PER_SQUARE_FOOT = METRES_PER_FOOT * METRES_PER_FOOT;
const CUBIC_METRES_PER_CUBIC_FOOT = SQUARE_METRES_PER_SQUARE_FOOT * METRES_PER_FOOT;
/** A statute mile of 1609.344 m an hour. */
const METRES_PER_SECOND_PER_MPH = 0.44704;
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

/** Feet to metres. A gun below the pump is a negative lift. */
export const feetToMetres = (feet: number): number => difference('feet', feet, 'ft') * METRES_PER_FOOT;
/** Metres to feet. */
export const metresToFeet = (metres: number): number => difference('metres', metres, 'm') / METRES_PER_FOOT;

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

/** Cubic feet to cubic metres. */
export const cubicFeetToCubicMetres = (cubicFeet: number): number =>
  amount('cubicFeet', cubicFeet, 'ft³') * CUBIC_METRES_PER_CUBIC_FOOT;
/** Cubic metres to cubic feet. */
export const cubicMetresToCubicFeet = (cubicMetres: number): number =>
  amount('cubicMetres', cubicMetres, 'm³') / CUBIC_METRES_PER_CUBIC_FOOT;

/** Cubic feet of air a minute to cubic metres a minute. The air itself is the same: both at the pressure it is given for. */
export const cfmToCubicMetresPerMinute = (cfm: number): number =>
  amount('cfm', cfm, 'ft³/min') * CUBIC_METRES_PER_CUBIC_FOOT;
/** Cubic metres of air a minute to cubic feet a minute. */
export const cubicMetresPerMinuteToCfm = (cubicMetresPerMinute: number): number =>
  amount('cubicMetresPerMinute', cubicMetresPerMinute, 'm³/min') / CUBIC_METRES_PER_CUBIC_FOOT;

/** US gallons a minute to litres a minute. */
export const gpmToLitresPerMinute = (gpm: number): number =>
  amount('gpm', gpm, 'gal/min') * LITRES_PER_US_GALLON;
/** Litres a minute to US gallons a minute. */
export const litresPerMinuteToGpm = (litresPerMinute: number): number =>
  amount('litresPerMinute', litresPerMinute, 'L/min') / LITRES_PER_US_GALLON;

/** Statute miles an hour to metres a second. */
export const mphToMetresPerSecond = (mph: number): number =>
  amount('mph', mph, 'mph') * METRES_PER_SECOND_PER_MPH;
/** Metres a second to statute miles an hour. */
export const metresPerSecondToMph = (metresPerSecond: number): number =>
  amount('metresPerSecond', metresPerSecond, 'm/s') / METRES_PER_SECOND_PER_MPH;

/** Pounds (avoirdupois) to kilograms. */
export const poundsToKilograms = (pounds: number): number => amount('pounds', pounds, 'lb') * KG_PER_POUND;
/** Kilograms to pounds (avoirdupois). */
export const kilogramsToPounds = (kilograms: number): number =>
  amount('kilograms', kilograms, 'kg') / KG_PER_POUND;

/** Density: pounds a US gallon to kilograms a litre. */
export const poundsPerGallonToKilogramsPerLitre = (poundsPerGallon: number): number =>
  (amount('poundsPerGallon', poundsPerGallon, 'lb/gal') * KG_PER_POUND) / LITRES_PER_US_GALLON;
/** Density: kilograms a litre to pounds a US gallon. */
export const kilogramsPerLitreToPoundsPerGallon = (kilogramsPerLitre: number): number =>
  (amount('kilogramsPerLitre', kilogramsPerLitre, 'kg/L') * LITRES_PER_US_GALLON) / KG_PER_POUND;

/** Spreading rate: square feet a US gallon to square metres a litre. */
export const squareFeetPerGallonToSquareMetresPerLitre = (squareFeetPerGallon: number): number =>
  (amount('squareFeetPerGallon', squareFeetPerGallon, 'ft²/gal') * SQUARE_METRES_PER_SQUARE_FOOT) /
  LITRES_PER_US_GALLON;
/** Spreading rate: square metres a litre to square feet a US gallon. */
export const squareMetresPerLitreToSquareFeetPerGallon = (squareMetresPerLitre: number): number =>
  (amount('squareMetresPerLitre', squareMetresPerLitre, 'm²/L') * LITRES_PER_US_GALLON) /
  SQUARE_METRES_PER_SQUARE_FOOT;
