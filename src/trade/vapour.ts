import { inRange, TradeRefusal } from './refusal.ts';

/** A solvent as section 9 of a safety data sheet has it. */
export interface SolventVapour {
  /** Lower explosive limit (LEL), 0.3 to 20 % by volume. */
  readonly lelPct: number;
  /** Vapour density, air = 1, 0.5 to 12. */
  readonly vapourDensity: number;
  /** Density of the liquid, 0.5 to 2 kg/L. */
  readonly densityKgPerL: number;
}

/** Where the vapour is: temperature −40 to 60 °C, and station pressure 500 to 1100 hPa (1013.25 when left out). */
export interface VapourPlace {
  readonly c: number;
  readonly pressureHPa?: number | undefined;
}

export interface SpaceVapour extends VapourPlace {
  readonly solvent: SolventVapour;
  /** Litres of liquid that have evaporated, 0 to 100 000. */
  readonly litres: number;
  /** Space without any ventilation, 0.1 to 1 000 000 m³. */
  readonly spaceM3: number;
}

/** Molar gas constant, J/(mol·K): exact since the SI of 2019. */
const GAS_CONSTANT = 8.314462618;
const KELVIN = 273.15;
/** Molar mass of dry air, g/mol (rounded from 28.9645 of the US Standard Atmosphere 1976). */
const AIR_G_PER_MOL = 28.96;
const SEA_LEVEL_HPA = 1013.25;
const LITRES_PER_M3 = 1000;
const PPM_PER_PCT = 10_000;

const copied = 'Copy it from section 9 of the safety data sheet.';
const amount = (litres: number) =>
  inRange('litres', litres, 0, 100_000, 'L', 'Give the litres of liquid that evaporate.');
const space = (m3: number) => inRange('spaceM3', m3, 0.1, 1e6, 'm³', 'Give the volume of the space.');
const share = (pct: number) =>
  inRange('fractionPct', pct, 1, 100, '% of the LEL', 'Give the part of the explosive limit to stay under.');
const lel = (solvent: SolventVapour) => inRange('lelPct', solvent.lelPct, 0.3, 20, '% by volume', copied);

/** Litres that one mole of an ideal gas takes. Source: ideal gas law. @throws TradeRefusal for a value out of range. */
export function molarVolumeL({ c, pressureHPa = SEA_LEVEL_HPA }: VapourPlace): number {
  const kelvin = inRange('c', c, -40, 60, '°C', 'Give the temperature of the air in the space.') + KELVIN;
  const why = 'Give the pressure at the site, not reduced to sea level.';
  return (GAS_CONSTANT * kelvin * 10) / inRange('pressureHPa', pressureHPa, 500, 1100, 'hPa', why);
}

/**
 * Litres of vapour that one litre of liquid makes: density × 1000 / (vapour density × 28.96) moles, as ideal gas.
 * Vapour densities on data sheets are rounded, so the result is good to some 2 %.
 * @throws TradeRefusal for a value out of range.
 */
export function vapourLitresPerLitre(solvent: SolventVapour, place: VapourPlace): number {
  const density = inRange('densityKgPerL', solvent.densityKgPerL, 0.5, 2, 'kg/L', copied);
  const heavier = inRange('vapourDensity', solvent.vapourDensity, 0.5, 12, 'times air', copied);
  return ((density * 1000) / (heavier * AIR_G_PER_MOL)) * molarVolumeL(place);
}

/**
 * Vapour in a closed space, % by volume, when `litres` have evaporated, mixed evenly and pushing no air out. Real vapour
 * sinks and lies in pockets, where there is much more of it.
 * @throws TradeRefusal for a value out of range, or more vapour than the space holds.
 */
export function vapourPct(input: SpaceVapour): number {
  const vapourM3 = (amount(input.litres) * vapourLitresPerLitre(input.solvent, input)) / LITRES_PER_M3;
  const m3 = space(input.spaceM3);
  if (vapourM3 > m3)
    throw new TradeRefusal(
      'litres',
      input.litres,
      `no more than makes ${m3} m³ of vapour`,
      'More vapour than the space holds: check the litres and the volume.',
    );
  return (100 * vapourM3) / m3;
}

/** The same in % of the lower explosive limit: 100 can explode. @throws TradeRefusal as `vapourPct`. */
export function pctOfLel(input: SpaceVapour): number {
  return (100 * vapourPct(input)) / lel(input.solvent);
}

/**
 * Litres of liquid that take a closed space to `fractionPct` (1 to 100) of the lower explosive limit when they evaporate.
 * Even mixing is assumed: a pocket reaches it with far less.
 * @throws TradeRefusal for a value out of range.
 */
export function litresToLelFraction(
  input: Omit<SpaceVapour, 'litres'> & { readonly fractionPct: number },
): number {
  const allowed = (lel(input.solvent) * share(input.fractionPct)) / 100;
  const vapourL = (space(input.spaceM3) * LITRES_PER_M3 * allowed) / 100;
  return vapourL / vapourLitresPerLitre(input.solvent, input);
}

/** Cubic metres of fresh air for each litre of solvent that evaporates. */
export interface DilutionAir {
  /** By the formula of the regulation, its factor 4 (for 25 %) taken as 100 / fraction for any other fraction. */
  readonly regulatoryM3: number;
  /** By balance of volumes: this much air and the vapour together are exactly at the fraction. */
  readonly exactM3: number;
  /** The larger of the two. */
  readonly neededM3: number;
}

/**
 * Fresh air that keeps evenly mixed vapour under `fractionPct` (1 to 100) of the lower explosive limit, m³ a litre.
 *
 * Regulatory: 4 · (100 − LEL) · V / LEL, which stands for 25 % of the LEL (29 CFR 1910.94(c)(6)(ii), from memory).
 * Exact: (100 − f·LEL) · V / (f·LEL), f the fraction. The exact figure is never the smaller one. Both are for even mixing
 * and for a steady evaporation; still air behind a frame gets none of it.
 * @throws TradeRefusal for a value out of range.
 */
export function dilutionAirM3PerL(
  input: VapourPlace & { readonly solvent: SolventVapour; readonly fractionPct: number },
): DilutionAir {
  const limit = lel(input.solvent);
  const part = share(input.fractionPct) / 100;
  const vapourM3 = vapourLitresPerLitre(input.solvent, input) / LITRES_PER_M3;
  const regulatoryM3 = ((100 - limit) * vapourM3) / (part * limit);
  const exactM3 = ((100 - part * limit) * vapourM3) / (part * limit);
  return { regulatoryM3, exactM3, neededM3: Math.max(regulatoryM3, exactM3) };
}

/** m³ of fresh air a minute for a load in litres of solvent an hour (0 to 100 000). @throws TradeRefusal out of range. */
export function airM3PerMin(m3PerLitre: number, litresPerHour: number): number {
  const why = 'Work it out with dilutionAirM3PerL.';
  return (inRange('m3PerLitre', m3PerLitre, 0, 1e6, 'm³/L', why) * amount(litresPerHour)) / 60;
}

/**
 * % of the lower explosive limit at which a ventilated, evenly mixed space settles. `airM3PerMin` is fresh air really
 * blown through the space, 0.001 to 1 000 000 m³/min; without any the vapour has no level to settle at.
 * Source: balance of volumes, vapour / (air + vapour).
 * @throws TradeRefusal for a value out of range.
 */
export function steadyPctOfLel(
  input: VapourPlace & {
    readonly solvent: SolventVapour;
    readonly litresPerHour: number;
    readonly airM3PerMin: number;
  },
): number {
  const why = 'Without air blown through, vapour only grows: work it out for the closed space.';
  const air = inRange('airM3PerMin', input.airM3PerMin, 0.001, 1e6, 'm³/min', why);
  const vapour =
    (amount(input.litresPerHour) * vapourLitresPerLitre(input.solvent, input)) / LITRES_PER_M3 / 60;
  return (100 * 100 * vapour) / (air + vapour) / lel(input.solvent);
}

/** Parts per million at `fractionPct` (1 to 100) of the limit: what lungs get while a meter is quiet. */
export function ppmAtLelFraction(lelPct: number, fractionPct: number): number {
  const limit = inRange('lelPct', lelPct, 0.3, 20, '% by volume', copied);
  return (limit * share(fractionPct) * PPM_PER_PCT) / 100;
}

/** Litres of solvent that leave with each litre of unthinned paint. */
export interface SolventPerLitre {
  readonly fromPaintL: number;
  readonly fromThinnerL: number;
}

/**
 * Solvent in one litre of unthinned paint with its thinner, all of it taken as evaporating: 100 − volume solids, and
 * `thinnerPct` (0 to 100) on the paint. Mist that leaves the space and solvent that stays in the film are counted as well.
 * Source: definition of volume solids. For a waterborne paint this is mostly water, which does not burn.
 * @throws TradeRefusal for a value out of range.
 */
export function solventPerLitre(volumeSolidsPct: number, thinnerPct: number): SolventPerLitre {
  const label = 'Volume solids stand on the data sheet of the coating.';
  const solids = inRange('volumeSolidsPct', volumeSolidsPct, 1, 100, '%', label);
  const counted = 'Thinner is counted per 100 volumes of unthinned paint.';
  const thinner = inRange('thinnerPct', thinnerPct, 0, 100, '%', counted);
  return { fromPaintL: (100 - solids) / 100, fromThinnerL: thinner / 100 };
}
