import { inRange, TradeRefusal } from './refusal.ts';
import { paintC } from './temperature-table.ts';

/**
 * How warm a hose full of paint may get that stands still in the sun. Every figure is taken to the warm side, because it
 * is used to ring earlier and never later, and a measured temperature always goes before it.
 */

export type HoseColour = 'dark' | 'light';

/**
 * Sun on a surface that faces it under a clear sky, W/m²: the round figure of solar testing (IEC 60904-3, from memory).
 * Fixed, without the sun's height: the day entry says "sun" and no more, a deck can be tilted, bright steel throws light
 * back, and what is not known is taken as the worse.
 */
export const CLEAR_SKY_W_PER_M2 = 1000;

/** Share of the sunlight taken up: the handbook's pair of dark and light surfaces (α/ho 0.052 and 0.026, from memory). */
const ABSORPTANCE: Readonly<Record<HoseColour, number>> = { dark: 0.9, light: 0.45 };

/**
 * Heat given off to the air and by radiation, W/(m²·K): the handbook's summer value (from memory), light wind. A wind
 * that cools better is not counted on.
 */
export const FILM_W_PER_M2K = 17;

/**
 * A hose lying on a deck takes up the sun on its width (its outer diameter) and gives heat off over the upper half of its
 * skin (π/2 times that); the lower half lies on a deck taken to be as warm as the hose. So the skin that counts gets
 * 2/π of the sun.
 */
const SUN_ON_SKIN = 2 / Math.PI;

/** Heat to warm a cubic metre by 1 K, kJ: as little as plain solvent and light rubber hold, so that it warms fast. */
const FILL_KJ_PER_M3K = 1500;
const WALL_KJ_PER_M3K = 1500;
/** Outer diameter over bore of a high-pressure hose. Common practice, no source. */
const OUTER_OVER_BORE = 2;

export interface SolAir {
  /** °C, −40 to 60. */
  readonly airC: number;
  /** Sun on the surface, 0 to 1400 W/m² (what reaches the earth above the air is about 1361). */
  readonly sunWPerM2: number;
  /** Share of it that is taken up, 0 to 1. */
  readonly absorptance: number;
  /** Heat given off, 5 to 100 W/(m²·K). */
  readonly filmWPerM2K: number;
  /** ε·ΔR, what is lost to a cold sky beyond the film, 0 to 100 W/m²; about 63 for a roof, 0 for a wall. */
  readonly skyLossWPerM2: number;
}

/**
 * Sol-air temperature in °C: the air temperature that would warm a shaded surface as much as air, sun and sky together
 * warm this one: t = air + α·I/ho − ε·ΔR/ho.
 * Source: ASHRAE Handbook: Fundamentals, cooling load chapters.
 * @throws TradeRefusal for a value out of range.
 */
export function solAirC(input: SolAir): number {
  const air = airC(input.airC);
  const sun = irradiance(input.sunWPerM2);
  const taken = inRange('absorptance', input.absorptance, 0, 1, '', 'It is a share: 0.9 for a dark surface.');
  const film = inRange('filmWPerM2K', input.filmWPerM2K, 5, 100, 'W/(m²·K)', 'Still air gives about 10.');
  const sky = inRange('skyLossWPerM2', input.skyLossWPerM2, 0, 100, 'W/m²', 'A roof loses about 63.');
  return air + (taken * sun - sky) / film;
}

/**
 * What a stalled hose warms towards, °C: the sol-air temperature of its skin. No loss to the sky is credited.
 * `airC` −40 to 60 °C, `sunWPerM2` 0 to 1400 W/m² facing the sun.
 * @throws TradeRefusal for a value out of range.
 */
export function hoseSolAirC(air: number, colour: HoseColour, sunWPerM2 = CLEAR_SKY_W_PER_M2): number {
  return solAirC({
    airC: air,
    sunWPerM2: irradiance(sunWPerM2) * SUN_ON_SKIN,
    absorptance: absorptanceOf(colour),
    filmWPerM2K: FILM_W_PER_M2K,
    skyLossWPerM2: 0,
  });
}

/**
 * Minutes in which a stalled hose gets 63 % of the way: heat held by fill and wall of a metre of hose, over what its upper
 * half gives off a degree. `boreMm` 1 to 100 mm; the outside is taken as twice the bore.
 * Source: lumped heat balance (one temperature through fill and wall).
 * @throws TradeRefusal for a value out of range.
 */
export function hoseTimeConstantMinutes(boreMm: number): number {
  const bore = inRange('boreMm', boreMm, 1, 100, 'mm', 'Bore is the inner diameter in millimetres.') / 1000;
  const outer = bore * OUTER_OVER_BORE;
  const fill = (Math.PI / 4) * bore ** 2 * FILL_KJ_PER_M3K;
  const wall = (Math.PI / 4) * (outer ** 2 - bore ** 2) * WALL_KJ_PER_M3K;
  const lostWPerK = FILM_W_PER_M2K * (Math.PI / 2) * outer;
  return ((fill + wall) * 1000) / lostWPerK / 60;
}

export interface StalledHose {
  /** Paint in the hose when it stopped, °C, −40 to 120. */
  readonly startC: number;
  /** °C, −40 to 60. */
  readonly airC: number;
  readonly colour: HoseColour;
  /** Of hoses one after the other the thinnest: it warms first. */
  readonly boreMm: number;
  /** Since it stopped, 0 to 2880 min. */
  readonly minutes: number;
  /** Facing the sun, 0 to 1400 W/m². */
  readonly sunWPerM2?: number;
}

/**
 * Estimated temperature in °C of the paint in a hose that stands still in the sun. It nears the sol-air temperature with
 * the hose's time constant and is never counted cooler than it was when it stopped: shade and wind give no credit.
 * Sunnier, darker, warmer or longer never gives less.
 * @throws TradeRefusal for a value out of range.
 */
export function stalledHoseC(hose: StalledHose): number {
  const start = paintC('startC', hose.startC);
  const towards = hoseSolAirC(hose.airC, hose.colour, hose.sunWPerM2);
  const minutes = inRange('minutes', hose.minutes, 0, 2880, 'min', 'Count from when the hose stopped.');
  const share = -Math.expm1(-minutes / hoseTimeConstantMinutes(hose.boreMm));
  return Math.max(start, start + (towards - start) * share);
}

/** Share of the sunlight a hose of this colour takes up. @throws TradeRefusal for another colour. */
export function absorptanceOf(colour: HoseColour): number {
  const known = Object.hasOwn(ABSORPTANCE, colour) ? ABSORPTANCE[colour] : undefined;
  if (known !== undefined) return known;
  throw new TradeRefusal('colour', colour, '"dark" or "light"', 'If you are not sure, say dark.');
}

function airC(value: number): number {
  return inRange('airC', value, -40, 60, '°C', 'Check the thermometer and its unit.');
}

function irradiance(value: number): number {
  return inRange('sunWPerM2', value, 0, 1400, 'W/m²', 'Clear sky is about 1000.');
}
