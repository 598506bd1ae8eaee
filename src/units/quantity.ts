import * as convert from '../trade/convert.ts';

/** How a site reads and writes its figures. Everything inside is metric. */
export type Units = 'metric' | 'us';

/** One unit people read: its sign, and how finely it is written. */
export interface Shown {
  readonly sign: string;
  /** Most digits after the point. */
  readonly decimals: number;
  /** A small amount is written with at least this many digits that count, so that 0.04 does not read 0. */
  readonly figures?: number;
}

/**
 * Something measured. The US step is at least as fine as the metric one that the program rounds to, so that two figures
 * that differ for a metric reader differ for a US one: a margin just short of its limit is never shown as met.
 */
export interface Quantity {
  readonly metric: Shown;
  readonly us: Shown;
  readonly toUs: (metric: number) => number;
  readonly fromUs: (us: number) => number;
}

/** Litres to three decimals and gallons alike: two parts of a mix keep their ratio within 1 %. */
const PART = { decimals: 3, figures: 3 } as const;

/**
 * By the sign that templates and form fields use, which is the metric one. `Δ°C` is a difference between two
 * temperatures: it has no zero point and converts by the factor alone.
 */
export const quantities = {
  '°C': {
    metric: { sign: '°C', decimals: 1 },
    us: { sign: '°F', decimals: 1 },
    toUs: convert.celsiusToFahrenheit,
    fromUs: convert.fahrenheitToCelsius,
  },
  'Δ°C': {
    metric: { sign: '°C', decimals: 1 },
    us: { sign: '°F', decimals: 1 },
    toUs: convert.celsiusDifferenceToFahrenheit,
    fromUs: convert.fahrenheitDifferenceToCelsius,
  },
  L: {
    metric: { sign: 'L', ...PART },
    us: { sign: 'gal', ...PART },
    toUs: convert.litresToUsGallons,
    fromUs: convert.usGallonsToLitres,
  },
  bar: {
    metric: { sign: 'bar', decimals: 2 },
    us: { sign: 'psi', decimals: 0 },
    toUs: convert.barToPsi,
    fromUs: convert.psiToBar,
  },
  µm: {
    metric: { sign: 'µm', decimals: 1 },
    us: { sign: 'mil', decimals: 2 },
    toUs: convert.micronsToMils,
    fromUs: convert.milsToMicrons,
  },
  mm: {
    metric: { sign: 'mm', decimals: 2, figures: 2 },
    us: { sign: 'in', decimals: 3, figures: 2 },
    toUs: convert.millimetresToInches,
    fromUs: convert.inchesToMillimetres,
  },
  m: {
    metric: { sign: 'm', decimals: 2 },
    us: { sign: 'ft', decimals: 1 },
    toUs: convert.metresToFeet,
    fromUs: convert.feetToMetres,
  },
  'm²': {
    metric: { sign: 'm²', decimals: 1 },
    us: { sign: 'ft²', decimals: 0 },
    toUs: convert.squareMetresToSquareFeet,
    fromUs: convert.squareFeetToSquareMetres,
  },
  'm³': {
    metric: { sign: 'm³', decimals: 1, figures: 2 },
    us: { sign: 'ft³', decimals: 0, figures: 3 },
    toUs: convert.cubicMetresToCubicFeet,
    fromUs: convert.cubicFeetToCubicMetres,
  },
  'm/s': {
    metric: { sign: 'm/s', decimals: 1 },
    us: { sign: 'mph', decimals: 1 },
    toUs: convert.metresPerSecondToMph,
    fromUs: convert.mphToMetresPerSecond,
  },
  'L/min': {
    metric: { sign: 'L/min', decimals: 2, figures: 2 },
    us: { sign: 'gal/min', decimals: 3, figures: 2 },
    toUs: convert.litresPerMinuteToGpm,
    fromUs: convert.gpmToLitresPerMinute,
  },
  'm³/min': {
    metric: { sign: 'm³/min', decimals: 2, figures: 2 },
    us: { sign: 'ft³/min', decimals: 0, figures: 3 },
    toUs: convert.cubicMetresPerMinuteToCfm,
    fromUs: convert.cfmToCubicMetresPerMinute,
  },
  'm²/L': {
    metric: { sign: 'm²/L', decimals: 2, figures: 3 },
    us: { sign: 'ft²/gal', decimals: 0, figures: 3 },
    toUs: convert.squareMetresPerLitreToSquareFeetPerGallon,
    fromUs: convert.squareFeetPerGallonToSquareMetresPerLitre,
  },
  kg: {
    metric: { sign: 'kg', decimals: 2, figures: 3 },
    us: { sign: 'lb', decimals: 2, figures: 3 },
    toUs: convert.kilogramsToPounds,
    fromUs: convert.poundsToKilograms,
  },
  'kg/L': {
    metric: { sign: 'kg/L', decimals: 3, figures: 3 },
    us: { sign: 'lb/gal', decimals: 2, figures: 3 },
    toUs: convert.kilogramsPerLitreToPoundsPerGallon,
    fromUs: convert.poundsPerGallonToKilogramsPerLitre,
  },
} as const satisfies Readonly<Record<string, Quantity>>;

/** The sign of a quantity as templates, form fields and this table write it. */
export type QuantityUnit = keyof typeof quantities;

export const quantityUnits = Object.keys(quantities) as readonly QuantityUnit[];

export function isQuantityUnit(sign: string): sign is QuantityUnit {
  return Object.hasOwn(quantities, sign);
}

/** The sign a reader of these units sees: `unitSign('bar', 'us')` is "psi". */
export const unitSign = (unit: QuantityUnit, units: Units): string => quantities[unit][units].sign;

/** A metric figure in the reader's units, not rounded. @throws TradeRefusal for what is no amount. */
export const inUnits = (unit: QuantityUnit, metric: number, units: Units): number =>
  units === 'us' ? quantities[unit].toUs(metric) : metric;

/** A figure in the reader's units as the metric one, not rounded. @throws TradeRefusal for what is no amount. */
export const fromUnits = (unit: QuantityUnit, shown: number, units: Units): number =>
  units === 'us' ? quantities[unit].fromUs(shown) : shown;
