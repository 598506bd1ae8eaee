import { squareMetresToSquareFeet, usGallonsToLitres } from './convert.ts';
import { inRange } from './refusal.ts';

const film = (field: string, value: number) =>
  inRange(field, value, 1, 20_000, 'µm', 'Film thickness is in micrometres.');
const solids = (value: number) =>
  inRange('volumeSolidsPct', value, 1, 100, '%', 'Volume solids stand on the data sheet of the coating.');
const thinner = (value: number) =>
  inRange('thinnerPct', value, 0, 100, '%', 'Thinner is counted per 100 volumes of unthinned paint.');
const loss = (value: number) =>
  inRange(
    'lossPct',
    value,
    0,
    95,
    '%',
    'Loss is the part of the paint used that does not end up in the film.',
  );

/**
 * Dry layer to lay down, µm: the film asked for and what fills the blast profile (0 to 1000 µm, first coat only).
 * @throws TradeRefusal for a value out of range.
 */
export function layerUm(input: {
  readonly dftUm: number;
  readonly profileAllowanceUm?: number | undefined;
}): number {
  const dft = film('dftUm', input.dftUm);
  const { profileAllowanceUm = 0 } = input;
  const why = 'The allowance is a film thickness, not the profile height.';
  return dft + inRange('profileAllowanceUm', profileAllowanceUm, 0, 1000, 'µm', why);
}

/**
 * Volume solids in % after thinning. `thinnerPct` is volumes of thinner per 100 volumes of paint (0 to 100), not per
 * 100 volumes of the thinned mix: 10 on paint is 9.09 on the total. The solids figure falls as thinner is added and
 * must be worked out anew (US DoD UFC 3-190-06, section 2.1.5).
 * @throws TradeRefusal for a value out of range.
 */
export function thinnedSolidsPct(volumeSolidsPct: number, thinnerPct: number): number {
  return (solids(volumeSolidsPct) * 100) / (100 + thinner(thinnerPct));
}

/**
 * Wet film to apply, µm, for a dry film of `dftUm` (1 to 20 000 µm).
 * Wet film readings steer the work; they do not prove the dry film (US DoD UFC 3-190-06, section 9.6.8.4).
 * Source: definition of volume solids; UFC 3-190-06, section 2.1.5.
 * @throws TradeRefusal for a value out of range.
 */
export function wetFilmUm(dftUm: number, volumeSolidsPct: number, thinnerPct: number): number {
  return (film('dftUm', dftUm) * 100) / thinnedSolidsPct(volumeSolidsPct, thinnerPct);
}

/**
 * Dry film to expect, µm, from a wet film of `wftUm` (1 to 20 000 µm) measured at once after it was applied.
 * Source: definition of volume solids; US DoD UFC 3-190-06, section 2.1.5.
 * @throws TradeRefusal for a value out of range.
 */
export function dryFilmUm(wftUm: number, volumeSolidsPct: number, thinnerPct: number): number {
  return (film('wftUm', wftUm) * thinnedSolidsPct(volumeSolidsPct, thinnerPct)) / 100;
}

/**
 * Square metres that one litre of unthinned paint covers at a dry film of `dftUm`. With `lossPct` (0 to 95, share of
 * the paint used) the practical rate, without it the theoretical one.
 * Source: geometry, 1 L is a layer of 1 µm on 1000 m².
 * @throws TradeRefusal for a value out of range.
 */
export function spreadingRateM2PerL(dftUm: number, volumeSolidsPct: number, lossPct = 0): number {
  return ((10 * solids(volumeSolidsPct)) / film('dftUm', dftUm)) * (1 - loss(lossPct) / 100);
}

/**
 * Square feet that one US gallon of unthinned paint covers at a dry film of `dftUm` (still in µm; 1 mil is 25.4 µm),
 * practical with `lossPct`, theoretical without it.
 * Source: geometry, a US gallon of 231 cubic inches is a layer of 1 mil on 1604.17 ft²; US DoD UFC 3-190-06, section
 * 2.1.5, rounds it to 1600.
 * @throws TradeRefusal for a value out of range.
 */
export function spreadingRateFt2PerUsGallon(dftUm: number, volumeSolidsPct: number, lossPct = 0): number {
  const m2PerL = spreadingRateM2PerL(dftUm, volumeSolidsPct, lossPct);
  return squareMetresToSquareFeet(m2PerL * usGallonsToLitres(1));
}

/**
 * Paint to add to the theoretical litres, in % of them, when `lossPct` (0 to 95) of the paint used is lost: 30 % lost
 * needs 42.9 % extra. The two are different figures and are never to be put in each other's place.
 * Source: arithmetic, 1 / (1 − loss).
 * @throws TradeRefusal for a value out of range.
 */
export function extraPctFromLossPct(lossPct: number): number {
  const lost = loss(lossPct);
  return (100 * lost) / (100 - lost);
}

/**
 * Share of the paint used that is lost, in %, when `extraPct` (0 to 1900) was added to the theoretical litres: 42.9 %
 * extra is 30 % lost.
 * Source: arithmetic, the inverse of `extraPctFromLossPct`.
 * @throws TradeRefusal for a value out of range.
 */
export function lossPctFromExtraPct(extraPct: number): number {
  const why = 'Extra is paint on top of the theoretical litres, per cent of them.';
  const extra = inRange('extraPct', extraPct, 0, 1900, '%', why);
  return (100 * extra) / (100 + extra);
}

export interface QuantityInput {
  /** Area to coat, 0.01 to 1 000 000 m². */
  readonly areaM2: number;
  /** Dry film to reach, 1 to 20 000 µm. */
  readonly dftUm: number;
  /** Volume solids of the unthinned paint, 1 to 100 %. */
  readonly volumeSolidsPct: number;
  /** Share of the paint used that is lost, 0 to 95 %. 30 % lost needs 42.9 % on top of the theory, not 30 %. */
  readonly lossPct: number;
  /** Dry film that fills the blast profile without showing on the gauge, 0 to 1000 µm; first coat only. */
  readonly profileAllowanceUm?: number | undefined;
}

/**
 * Litres of unthinned, mixed paint to use up for an area.
 * Source: geometry; losses and profile allowance are the site's own figures.
 * @throws TradeRefusal for a value out of range.
 */
export function litresNeeded(input: QuantityInput): number {
  const area = inRange('areaM2', input.areaM2, 0.01, 1e6, 'm²', 'Area is in square metres.');
  return (area * layerUm(input)) / (10 * solids(input.volumeSolidsPct)) / (1 - loss(input.lossPct) / 100);
}
