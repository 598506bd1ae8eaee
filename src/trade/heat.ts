import { celsiusToFahrenheit, fahrenheitDifferenceToCelsius, fahrenheitToCelsius } from './convert.ts';
import { inRange, TradeRefusal } from './refusal.ts';

/** The bands of the US National Weather Service's chart, mildest first (from memory). */
export const heatBands = ['caution', 'extreme-caution', 'danger', 'extreme-danger'] as const;
export type HeatBand = (typeof heatBands)[number];

/** What air and humidity are to a person in shade. `off-chart`: hotter or wetter than anybody has a figure for. */
export type FeltHeat =
  | { readonly kind: 'cool' }
  | { readonly kind: 'index'; readonly indexC: number; readonly band: HeatBand | null }
  | { readonly kind: 'off-chart'; readonly band: 'extreme-danger' };

// Where a band begins, °F (NWS chart, from memory).
const BEGINS_F: Readonly<Record<HeatBand, number>> = {
  caution: 80,
  'extreme-caution': 90,
  danger: 103,
  'extreme-danger': 125,
};
// Steadman's tables go from 20 to 50 °C, the NWS chart up to 137 °F (from memory).
const LEAST_C = 20;
const MOST_C = 50;
const MOST_F = 137;

/** The chart is for shade; the National Weather Service says full sun adds up to 15 °F (from memory). */
export const SUN_ADDS_C = fahrenheitDifferenceToCelsius(15);

/** The heat index step by step, °F: `index` is the average of air and simple formula, or regression and adjustment. */
export interface HeatSteps {
  readonly airF: number;
  readonly averageF: number;
  /** null below 80 °F, where the average is used. */
  readonly regressionF: number | null;
  /** For very dry air negative, for very wet air positive, else 0. */
  readonly adjustF: number;
  readonly indexF: number;
}

/**
 * Heat index in °C from air temperature (20 to 50 °C) and relative humidity (1 to 100 %), for a person in shade, in light
 * clothes, walking. A spray suit is not in it.
 *
 * US National Weather Service: the average of the air temperature and Steadman's simple formula where that is below 80 °F,
 * else the regression of Rothfusz with its two adjustments (wpc.ncep.noaa.gov/html/heatindex_equation.shtml).
 * @throws TradeRefusal for air or humidity out of range, and where the result lies beyond the chart (137 °F, 58 °C).
 */
export function heatIndexC(airC: number, rhPct: number): number {
  inRange('airC', airC, LEAST_C, MOST_C, '°C', 'The heat index has no figure outside that.');
  const { indexF } = heatSteps(airC, rhPct);
  if (indexF > MOST_F)
    throw new TradeRefusal(
      'rhPct',
      rhPct,
      `less for air at ${airC} °C: the heat index there is off the chart`,
      'Treat it as extreme danger.',
    );
  return fahrenheitToCelsius(indexF);
}

/**
 * The same without the limits of the chart, for air of −60 to 60 °C: outside 20 to 50 °C, and over 137 °F, its result is
 * no heat index and only good for showing how it came about.
 * @throws TradeRefusal for a value out of range.
 */
export function heatSteps(airC: number, rhPct: number): HeatSteps {
  const t = celsiusToFahrenheit(inRange('airC', airC, -60, 60, '°C', 'Check the thermometer and its unit.'));
  const r = inRange('rhPct', rhPct, 1, 100, '%', 'Relative humidity is a per cent figure; check the meter.');
  const averageF = (0.5 * (t + 61 + (t - 68) * 1.2 + r * 0.094) + t) / 2;
  if (averageF < 80) return { airF: t, averageF, regressionF: null, adjustF: 0, indexF: averageF };
  const regressionF =
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r;
  const adjustF = adjustment(t, r);
  return { airF: t, averageF, regressionF, adjustF, indexF: regressionF + adjustF };
}

function adjustment(t: number, r: number): number {
  if (r < 13 && t >= 80 && t <= 112) return -((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return ((r - 85) / 10) * ((87 - t) / 5);
  return 0;
}

/** The band of a heat index in °C, −100 to 200; null under the first. A figure exactly where a band begins is in it. */
export function heatBandOf(indexC: number): HeatBand | null {
  const f = celsiusToFahrenheit(inRange('indexC', indexC, -100, 200, '°C', 'Work the heat index out again.'));
  // The small term keeps 90 °F, which is 32.2222… °C, from falling out of its band by the last digit.
  return heatBands.findLast((band) => f + 1e-9 >= BEGINS_F[band]) ?? null;
}

/**
 * Heat index and band for any weather a site has, −60 to 60 °C: where the formula has no figure, cold air is `cool` and
 * hot air is the worst band, because unknown is the hazardous case.
 * @throws TradeRefusal for a value out of range.
 */
export function feltHeat(airC: number, rhPct: number): FeltHeat {
  const { indexF } = heatSteps(airC, rhPct);
  if (airC < LEAST_C) return { kind: 'cool' };
  if (airC > MOST_C || indexF > MOST_F) return { kind: 'off-chart', band: 'extreme-danger' };
  const indexC = fahrenheitToCelsius(indexF);
  return { kind: 'index', indexC, band: heatBandOf(indexC) };
}
