import { inRange } from './refusal.ts';

/** What the sprayers wear over their clothes. */
export type Coveralls = 'woven' | 'polyolefin' | 'vapour-barrier';

/**
 * °C a wet-bulb globe temperature counts higher for what is worn: ACGIH clothing adjustment values (from memory). A hood
 * adds 1 °C more there.
 */
export const COVERALLS_ADD_C: Readonly<Record<Coveralls, number>> = {
  woven: 0,
  polyolefin: 1,
  'vapour-barrier': 11,
};

const bulb = (field: string, value: number, most: number) =>
  inRange(field, value, -10, most, '°C', 'Check the meter and its unit.');

/**
 * Wet-bulb globe temperature in °C out of the sun: 0.7 of the natural wet bulb (−10 to 60 °C) and 0.3 of the globe (−10
 * to 100 °C). ISO 7243 (from memory).
 * @throws TradeRefusal for a value out of range.
 */
export function wbgtShadeC(naturalWetC: number, globeC: number): number {
  return 0.7 * bulb('naturalWetC', naturalWetC, 60) + 0.3 * bulb('globeC', globeC, 100);
}

/**
 * Wet-bulb globe temperature in °C in the sun: 0.7 of the natural wet bulb (−10 to 60 °C), 0.2 of the globe (−10 to
 * 100 °C) and 0.1 of the air (−10 to 60 °C). ISO 7243 (from memory).
 * @throws TradeRefusal for a value out of range.
 */
export function wbgtSunC(naturalWetC: number, globeC: number, airC: number): number {
  return (
    0.7 * bulb('naturalWetC', naturalWetC, 60) +
    0.2 * bulb('globeC', globeC, 100) +
    0.1 * bulb('airC', airC, 60)
  );
}

export interface WbgtLimits {
  /** Recommended exposure limit for people used to heat, °C WBGT. */
  readonly usedC: number;
  /** Recommended alert limit, for people new to heat, °C WBGT. */
  readonly newC: number;
}

/**
 * Limits by metabolic rate, 117 to 520 W averaged over the hour: used to heat 56.7 − 11.5·log10 M, new to it
 * 59.9 − 14.1·log10 M. NIOSH 2016-106 (from memory), for a healthy adult in one layer of work clothes.
 * @throws TradeRefusal for a value out of range.
 */
export function wbgtLimits(workW: number): WbgtLimits {
  const why = 'About 180 W is light work, 300 W moderate, 415 W heavy.';
  const log = Math.log10(inRange('workW', workW, 117, 520, 'W', why));
  return { usedC: 56.7 - 11.5 * log, newC: 59.9 - 14.1 * log };
}

export interface WbgtAssessment extends WbgtLimits {
  /** The measured figure with what the coveralls add, °C. */
  readonly wornC: number;
  /** `over`: at or over the limit of everybody; `over-new`: of people new to heat. `under` is arithmetic, not leave. */
  readonly state: 'under' | 'over-new' | 'over';
}

/**
 * A measured wet-bulb globe temperature (0 to 60 °C) in these coveralls against the limits for this work.
 * @throws TradeRefusal for a value out of range.
 */
export function assessWbgt(wbgtC: number, coveralls: Coveralls, workW: number): WbgtAssessment {
  const limits = wbgtLimits(workW);
  const wornC = inRange('wbgtC', wbgtC, 0, 60, '°C', 'Check the WBGT meter.') + COVERALLS_ADD_C[coveralls];
  const state = wornC >= limits.usedC ? 'over' : wornC >= limits.newC ? 'over-new' : 'under';
  return { ...limits, wornC, state };
}
