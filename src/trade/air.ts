import { inRange } from './refusal.ts';

export interface AirInput {
  /** Fluid pressure to air pressure, 1 to 200; also how much more air volume than fluid goes through the pump. */
  readonly ratio: number;
  /** Fluid the pump delivers while the trigger is pulled, 0 to 1000 L/min. */
  readonly fluidLPerMin: number;
  /** Air pressure at the pump by the gauge, 0 to 15 bar. */
  readonly airBar: number;
  /** Pressure of the air around, 0.5 to 1.1 bar: 1.013 at sea level, less in the mountains. */
  readonly ambientBar: number;
}

/**
 * Free air an air-driven pump takes, litres a minute as they lie before the compressor's inlet:
 * ratio × fluid flow × (air pressure + ambient) / ambient.
 *
 * Source: both pistons make the same stroke and the air piston is `ratio` times as large, so it takes `ratio` times the
 * fluid's volume, and Boyle's law takes that air back to ambient pressure. Assumptions: the air in the cylinder has the
 * pressure of the gauge and the temperature of the day; leaks, exhaust throttling and dead space are left out, so the
 * real use is higher.
 * @throws TradeRefusal for a value out of range.
 */
export function freeAirLPerMin(input: AirInput): number {
  const ratio = inRange('ratio', input.ratio, 1, 200, 'to 1', 'Read the ratio from the plate on the pump.');
  const fluid = inRange('fluidLPerMin', input.fluidLPerMin, 0, 1000, 'L/min', 'Work it out from the tip.');
  const air = inRange('airBar', input.airBar, 0, 15, 'bar', 'Give the air pressure at the pump in bar.');
  const ambient = inRange(
    'ambientBar',
    input.ambientBar,
    0.5,
    1.1,
    'bar',
    'Give the pressure of the air around in bar: 1.013 at sea level.',
  );
  return (ratio * fluid * (air + ambient)) / ambient;
}
