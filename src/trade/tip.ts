import { inchesToMillimetres } from './convert.ts';
import { inRange, TradeRefusal } from './refusal.ts';

/**
 * Discharge coefficient that reproduces the water-flow charts of the trade within 2 % over 0.011 to 0.035 in.
 * Common practice, no source; a sharp-edged textbook hole has about 0.61, and paint flows otherwise than water.
 */
export const CHART_CD = 0.8;

export interface TipSize {
  /** Fan width in mm on work about 300 mm from the gun. */
  readonly fanMm: number;
  /** Diameter of a round hole that passes as much, mm. */
  readonly orificeMm: number;
}

/** Three digits, the first 1 to 9, the last two 05 to 99. */
const THREE_DIGITS = /^([1-9])(0[5-9]|[1-9]\d)$/;

/** Whether `tipCode` can read this code. Anything else is some maker's own numbering, and a guess would be wrong. */
export function isTipCode(code: string): boolean {
  return THREE_DIGITS.test(code);
}

/**
 * Fan and orifice of a three-digit airless tip code: first digit doubled is the fan in inches, last two digits are the
 * orifice in thousandths of an inch. Common practice; a US DoD aircraft coating manual calls a 12-inch fan 617 and a
 * 10-inch fan 517. A worn tip has a larger orifice and a narrower fan than its code says.
 * @throws TradeRefusal for anything but three digits, a first digit 0, or an orifice below 0.005 in: such codes exist
 * with other meanings, and a guess would be wrong.
 */
export function tipCode(code: string): TipSize {
  const found = typeof code === 'string' ? THREE_DIGITS.exec(code) : null;
  if (!found)
    throw new TradeRefusal(
      'code',
      code,
      'three digits, the first 1 to 9 and the last two 05 to 99, such as 517',
      'Other patterns mean different things from tip to tip: enter fan and orifice yourself.',
    );
  return {
    fanMm: inchesToMillimetres(Number(found[1]) * 2),
    orificeMm: inchesToMillimetres(Number(found[2]) / 1000),
  };
}

export interface TipFlowInput {
  /** Orifice diameter, 0.1 to 3 mm. */
  readonly orificeMm: number;
  /** Fluid pressure at the tip, 0 to 3000 bar. */
  readonly bar: number;
  /** Density of the fluid, 500 to 5000 kg/m³. */
  readonly densityKgPerM3: number;
  /** Discharge coefficient, 0.3 to 1; see `CHART_CD`. */
  readonly cd: number;
}

/**
 * Flow through a tip in L/min: Q = Cd · π/4 · d² · √(2Δp/ρ), the orifice equation.
 * An estimate for planning only: viscosity and wear are left out.
 * @throws TradeRefusal for a value out of range.
 */
export function tipFlowLPerMin(input: TipFlowInput): number {
  const d = inRange('orificeMm', input.orificeMm, 0.1, 3, 'mm', 'Orifice is a diameter in mm.') / 1000;
  const pa = inRange('bar', input.bar, 0, 3000, 'bar', 'Give the fluid pressure at the tip.') * 1e5;
  const density = inRange('densityKgPerM3', input.densityKgPerM3, 500, 5000, 'kg/m³', 'Water is 998.');
  const cd = inRange('cd', input.cd, 0.3, 1, '', 'A discharge coefficient is a share of ideal flow.');
  return cd * (Math.PI / 4) * d ** 2 * Math.sqrt((2 * pa) / density) * 60_000;
}
