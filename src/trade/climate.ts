import { inRange, TradeRefusal } from './refusal.ts';

/** Air and steel as read at the work face. */
export interface ClimateReading {
  /** Air temperature, −40 to 60 °C. */
  readonly airC: number;
  /** Relative humidity, 1 to 100 %. */
  readonly rhPct: number;
  /** Steel surface temperature, −40 to 120 °C. Of several spots the coldest is the one that sweats first. */
  readonly steelC: number;
}

/**
 * What the coating sheet or the site's policy asks for. A limit that is left out is not checked.
 * Common starting points are a margin of 3 °C (US FHWA bridge painting checklist, FHWA-RD-98-084) and 85 % relative
 * humidity (common practice); the coating's own data sheet outranks both.
 */
export interface ClimateLimits {
  readonly marginMinC: number;
  readonly rhMaxPct: number;
  readonly rhMinPct?: number | undefined;
  readonly steelMinC?: number | undefined;
  readonly steelMaxC?: number | undefined;
  readonly airMinC?: number | undefined;
  readonly airMaxC?: number | undefined;
}

export type LimitName = 'margin' | 'rh-max' | 'rh-min' | 'steel-min' | 'steel-max' | 'air-min' | 'air-max';

/** One limit that the reading does not meet: what was found and what was allowed, both in the limit's own unit. */
export interface LimitFailure {
  readonly limit: LimitName;
  readonly value: number;
  readonly allowed: number;
}

export interface ClimateAssessment {
  /** Dew point over water, °C. */
  readonly dewPointC: number;
  /** Steel temperature less dew point, °C. Negative means the steel is wet already. */
  readonly marginC: number;
  /** Empty when every given limit is met. That is arithmetic, never leave to spray. */
  readonly failures: readonly LimitFailure[];
}

// Alduchov & Eskridge 1996, "Improved Magnus form approximation of saturation vapor pressure", J. Appl. Meteor. 35,
// over water.
const A = 17.625;
const B = 243.04;
const C_HPA = 6.1094;

const RATIO_OF_MOLAR_MASSES = 0.621945;

const air = (value: number) => inRange('airC', value, -40, 60, '°C', 'Check the thermometer and its unit.');
const steel = (value: number) =>
  inRange('steelC', value, -40, 120, '°C', 'Check the surface thermometer and its unit.');
const rh = (value: number) =>
  inRange('rhPct', value, 1, 100, '%', 'Relative humidity is a per cent figure; check the meter.');

/**
 * Dew point over water in °C, from air temperature (−40 to 60 °C) and relative humidity (1 to 100 %).
 *
 * Magnus form with the constants of Alduchov & Eskridge 1996, fitted from −40 to 50 °C; up to 60 °C it stays within
 * 0.12 °C of the ASHRAE 2017 formulas (tests/published/climate.test.ts). Below 0 °C it is the dew point over
 * supercooled water, which lies below the frost point.
 * @throws TradeRefusal for a value out of range.
 */
export function dewPointC(airC: number, rhPct: number): number {
  const t = air(airC);
  const g = Math.log(rh(rhPct) / 100) + (A * t) / (B + t);
  return (B * g) / (A - g);
}

/** A wet bulb worked out step by step. Pressures in hPa; humidity ratios in kg of water per kg of dry air. */
export interface WetBulb {
  readonly saturatedHPa: number;
  readonly saturatedRatio: number;
  readonly ratio: number;
  readonly vapourHPa: number;
  readonly rhPct: number;
}

/** Relative humidity in % of `wetBulb`, see there. */
export function rhFromWetBulb(airC: number, wetC: number, pressureHPa = 1013.25): number {
  return wetBulb(airC, wetC, pressureHPa).rhPct;
}

/**
 * Relative humidity from dry bulb (0 to 60 °C) and wet bulb (0 °C to the dry bulb) at a station pressure of 500 to
 * 1100 hPa (`pressureAtHPa` for the height of a site). The wet bulb must be whirled or aspirated until it is steady.
 *
 * ASHRAE Handbook: Fundamentals 2017, chapter 1, thermodynamic wet bulb over water, with the saturation pressure of
 * Alduchov & Eskridge 1996. Within 0.5 % relative humidity of psychrolib.
 * @throws TradeRefusal for a value out of range; for a wet bulb below freezing, where nobody can tell ice from water
 * on the wick; and for a pair that would need air drier than 1 %.
 */
export function wetBulb(airC: number, wetC: number, pressureHPa: number): WetBulb {
  const frozen = 'Below freezing the wick may hold ice: use an electronic meter there.';
  const dry = inRange('airC', airC, 0, 60, '°C', frozen);
  const wet = inRange('wetC', wetC, 0, dry, '°C', `A wet bulb is never warmer than the air. ${frozen}`);
  const pressure = inRange('pressureHPa', pressureHPa, 500, 1100, 'hPa', 'Give the pressure at the site.');

  const saturatedHPa = saturationHPa(wet);
  const saturatedRatio = (RATIO_OF_MOLAR_MASSES * saturatedHPa) / (pressure - saturatedHPa);
  const ratio =
    ((2501 - 2.326 * wet) * saturatedRatio - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet);
  const vapourHPa = (pressure * ratio) / (RATIO_OF_MOLAR_MASSES + ratio);
  const found = (100 * vapourHPa) / saturationHPa(dry);
  if (!(found >= 1))
    throw new TradeRefusal(
      'wetC',
      wetC,
      `warmer than it is for air at ${dry} °C`,
      'No air is that dry: wet the wick and whirl again.',
    );
  // Only rounding dust can lie above 100, because the wet bulb is not above the dry bulb.
  const rhPct = wet === dry ? 100 : Math.min(100, found);
  return { saturatedHPa, saturatedRatio, ratio, vapourHPa, rhPct };
}

/**
 * Dew point, margin and every limit that the reading misses, each named on its own so that the crew hears what to wait
 * for. A reading that lies exactly on a limit meets it.
 * @throws TradeRefusal for a reading or a limit out of range, or a minimum above its maximum.
 */
export function assessClimate(reading: ClimateReading, limits: ClimateLimits): ClimateAssessment {
  const dewPoint = dewPointC(reading.airC, reading.rhPct);
  const margin = steel(reading.steelC) - dewPoint;
  const allowed = checkedLimits(limits);
  const failures: LimitFailure[] = [];
  const least = (limit: LimitName, value: number, min: number | undefined) => {
    if (min !== undefined && value < min) failures.push({ limit, value, allowed: min });
  };
  const most = (limit: LimitName, value: number, max: number | undefined) => {
    if (max !== undefined && value > max) failures.push({ limit, value, allowed: max });
  };
  least('margin', margin, allowed.marginMinC);
  most('rh-max', reading.rhPct, allowed.rhMaxPct);
  least('rh-min', reading.rhPct, allowed.rhMinPct);
  least('steel-min', reading.steelC, allowed.steelMinC);
  most('steel-max', reading.steelC, allowed.steelMaxC);
  least('air-min', reading.airC, allowed.airMinC);
  most('air-max', reading.airC, allowed.airMaxC);
  return { dewPointC: dewPoint, marginC: margin, failures };
}

function checkedLimits(limits: ClimateLimits): ClimateLimits {
  const copied = 'Copy it from the coating sheet or the site policy.';
  inRange('limits.marginMinC', limits.marginMinC, 0, 20, '°C', copied);
  inRange('limits.rhMaxPct', limits.rhMaxPct, 1, 100, '%', copied);
  optional('limits.rhMinPct', limits.rhMinPct, 0, 100, '%', copied);
  for (const name of ['steelMinC', 'steelMaxC', 'airMinC', 'airMaxC'] as const)
    optional(`limits.${name}`, limits[name], -40, 120, '°C', copied);
  ordered('limits.rhMinPct', limits.rhMinPct, limits.rhMaxPct, '%');
  ordered('limits.steelMinC', limits.steelMinC, limits.steelMaxC, '°C');
  ordered('limits.airMinC', limits.airMinC, limits.airMaxC, '°C');
  return limits;
}

function optional(
  field: string,
  value: number | undefined,
  min: number,
  max: number,
  unit: string,
  why: string,
) {
  if (value !== undefined) inRange(field, value, min, max, unit, why);
}

function ordered(field: string, min: number | undefined, max: number | undefined, unit: string) {
  if (min !== undefined && max !== undefined && min > max)
    throw new TradeRefusal(
      field,
      min,
      `no more than its maximum, ${max} ${unit}`,
      'No reading could meet both.',
    );
}

/** Saturation vapour pressure over water, hPa, at −40 to 60 °C. @throws TradeRefusal for a value out of range. */
export function saturationHPa(c: number): number {
  inRange('c', c, -40, 60, '°C', 'Check the thermometer and its unit.');
  return C_HPA * Math.exp((A * c) / (B + c));
}
