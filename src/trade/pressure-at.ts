import { inRange } from './refusal.ts';

// Standard atmosphere, lowest layer: pressure and temperature at sea level, fall of temperature with height, and the
// exponent g·M/(R·L).
const SEA_LEVEL_HPA = 1013.25;
const SEA_LEVEL_K = 288.15;
const FALL_K_PER_M = 0.0065;
const EXPONENT = 5.25588;

/**
 * Station pressure in hPa at a height above sea level of −450 to 5000 m, by the standard atmosphere (ISO 2533, the same
 * as the US Standard Atmosphere 1976 up to 11 km). The weather moves the real pressure some 30 hPa to either side, which
 * a wet bulb hardly feels; height moves it by hundreds, and sea-level pressure used up there would make the air look
 * drier than it is.
 * @throws TradeRefusal for a height out of range.
 */
export function pressureAtHPa(altitudeM: number): number {
  const why = 'Give the height of the site above sea level.';
  const height = inRange('altitudeM', altitudeM, -450, 5000, 'm', why);
  return SEA_LEVEL_HPA * (1 - (FALL_K_PER_M * height) / SEA_LEVEL_K) ** EXPONENT;
}
