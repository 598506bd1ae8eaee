import { inRange } from './refusal.ts';
import { paintC, type TemperatureMinutes } from './temperature-table.ts';

/** Molar gas constant, J/(mol·K): exact since the SI of 2019 (CODATA 2018). */
const GAS = 8.314462618;
const KELVIN = 273.15;

/**
 * Activation energies of epoxy-amine and urethane systems in print lie mostly at 40 to 70 kJ/mol (abstracts of
 * Thermochim. Acta 447 (2006) 167–177 and Polymer 46 (2005) 15–25); as a factor per 10 °C that is 1.7 to 2.6 from 20 to
 * 30 °C. Far from 20 °C the two ways of saying it part, so both are asked and the more careful one counts.
 */
export const ONE_POINT = { slowKJ: 40, fastKJ: 70, slowQ10: 1.7, fastQ10: 2.6 } as const;

/**
 * Pot life in minutes at `c` (−40 to 120 °C) when it is `minutes` (1 to 10 080) at `refC`, for a reaction of this
 * activation energy (20 to 120 kJ/mol): τ = τref · exp(E/R · (1/T − 1/Tref)), T in kelvin. The law alone: for colder
 * paint it gives more time, which no clock here takes.
 * Source: Arrhenius.
 * @throws TradeRefusal for a value out of range.
 */
export function potLifeByEnergy(minutes: number, refC: number, c: number, kJPerMol: number): number {
  const known = inRange('minutes', minutes, 1, 10_080, 'min', 'Copy it from the data sheet.');
  const perKelvin = (energy(kJPerMol) * 1000) / GAS;
  return known * Math.exp(perKelvin * (1 / kelvin('c', c) - 1 / kelvin('refC', refC)));
}

/**
 * How many times faster such a reaction (20 to 120 kJ/mol) is at `fromC` + 10 °C than at `fromC` (−40 to 110 °C).
 * Source: Arrhenius.
 * @throws TradeRefusal for a value out of range.
 */
export function q10OfEnergy(kJPerMol: number, fromC: number): number {
  const from = inRange('fromC', fromC, -40, 110, '°C', 'Check the thermometer and its unit.');
  return Math.exp(((energy(kJPerMol) * 1000) / GAS) * (1 / kelvin('fromC', from) - 1 / (from + 10 + KELVIN)));
}

export interface OnePointBounds {
  /** What the clocks go by: the shortest pot life such a sheet may mean at this temperature. */
  readonly earlyMinutes: number;
  /** The longest. Only shown, so that people see how little one line says; nothing rings by it. */
  readonly lateMinutes: number;
}

/**
 * The two ends of what one line of a sheet (1 to 10 080 min at −40 to 80 °C) can mean at `c` (−40 to 120 °C). Warmer:
 * 70 kJ/mol or 2.6 per 10 °C, whichever is shorter, and 40 kJ/mol or 1.7 per 10 °C, whichever is longer. At the line's
 * temperature and colder both are the line's own figure: nothing here lengthens what the maker says.
 * @throws TradeRefusal for a value out of range.
 */
export function onePointBounds(point: TemperatureMinutes, c: number): OnePointBounds {
  const minutes = inRange('minutes', point.minutes, 1, 10_080, 'min', 'Copy it from the data sheet.');
  const warmerBy =
    paintC('c', c) - inRange('point.c', point.c, -40, 80, '°C', 'Copy it from the data sheet.');
  if (warmerBy <= 0) return { earlyMinutes: minutes, lateMinutes: minutes };
  const byEnergy = (kJ: number) => potLifeByEnergy(minutes, point.c, c, kJ);
  const byQ10 = (q10: number) => minutes * q10 ** (-warmerBy / 10);
  return {
    earlyMinutes: Math.min(byEnergy(ONE_POINT.fastKJ), byQ10(ONE_POINT.fastQ10)),
    lateMinutes: Math.max(byEnergy(ONE_POINT.slowKJ), byQ10(ONE_POINT.slowQ10)),
  };
}

function energy(kJPerMol: number): number {
  return inRange('kJPerMol', kJPerMol, 20, 120, 'kJ/mol', 'Coatings lie at about 40 to 70.');
}

function kelvin(field: string, c: number): number {
  return paintC(field, c) + KELVIN;
}
