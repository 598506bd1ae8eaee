import { inRange, TradeRefusal } from './refusal.ts';

/** Standard acceleration of free fall, m/s², exact by convention (3rd CGPM 1901; in ISO 80000-3). */
export const STANDARD_GRAVITY = 9.80665;

const density = (value: number) =>
  inRange('densityKgPerM3', value, 500, 5000, 'kg/m³', 'Water is 998. It stands on the data sheet, in kg/L.');
const lift = (value: number) =>
  inRange('liftM', value, -500, 500, 'm', 'How far the gun is above the pump; below it: negative.');
const pump = (value: number) => inRange('pumpBar', value, 0, 3000, 'bar', 'Give the pressure at the pump.');

/**
 * Pressure of a standing column of fluid, bar: ρ·g·h. Positive when the gun is above the pump (the gun has so much less),
 * negative when it is below (the gun has so much more). Density 500 to 5000 kg/m³, lift −500 to 500 m.
 * Source: hydrostatics, with the standard acceleration of free fall. A fluid that flows loses more; this is without flow.
 * @throws TradeRefusal for a value out of range.
 */
export function staticHeadBar(densityKgPerM3: number, liftM: number): number {
  return (density(densityKgPerM3) * STANDARD_GRAVITY * lift(liftM)) / 1e5 + 0;
}

export interface LineInput {
  /** Pressure at the pump, 0 to 3000 bar. Stall pressure for the most there can be. */
  readonly pumpBar: number;
  /** Density of what stands in the line, 500 to 5000 kg/m³. For the most there can be: the heaviest it may be. */
  readonly densityKgPerM3: number;
  /** Height of the gun over the pump, −500 to 500 m; negative when the gun is below. */
  readonly liftM: number;
}

/**
 * The highest pressure anywhere between pump and gun with the gun shut, bar. At the pump when the gun is above it; when
 * the gun is below, hose end and gun see the column on top of the pump's pressure.
 * Assumption: the hose hangs no lower than the lower of pump and gun.
 * @throws TradeRefusal for a value out of range.
 */
export function highestLineBar({ pumpBar, densityKgPerM3, liftM }: LineInput): number {
  return pump(pumpBar) + Math.max(0, -staticHeadBar(densityKgPerM3, liftM));
}

/**
 * Pressure at the gun with the gun shut, bar. While spraying it is lower still, by friction in the hose.
 * @throws TradeRefusal for a value out of range, or a lift the pump's pressure cannot reach.
 */
export function gunBar({ pumpBar, densityKgPerM3, liftM }: LineInput): number {
  const left = pump(pumpBar) - staticHeadBar(densityKgPerM3, liftM);
  if (left >= 0) return left;
  const most = (pumpBar * 1e5) / (densityKgPerM3 * STANDARD_GRAVITY);
  throw new TradeRefusal(
    'liftM',
    liftM,
    `at most ${Math.floor(most * 10) / 10} m for ${pumpBar} bar`,
    'The pump cannot lift this fluid so high.',
  );
}
