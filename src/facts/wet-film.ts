import type { CoatingSheet } from '../model/coating-sheet.ts';
import { wetFilmUm } from '../trade/film.ts';
import { wetFilmBand } from '../trade/wet-film-band.ts';
import { whole, wholeDown, wholeUp } from './round.ts';

/** How much room the target has: a band, none to one side, none at all, or the sheet gives no range. */
export type WetFilmRoom = 'band' | 'thin' | 'thick' | 'exact' | 'open';

/** A wet film as it is printed, whole µm: a reading from `least` to `most` dries to within the sheet's range. */
export interface WetFilm {
  readonly room: WetFilmRoom;
  readonly wftUm: number;
  readonly leastUm: number;
  readonly mostUm: number;
}

/**
 * The wet film for a dry film, with its band rounded inwards and the target kept inside the band.
 * @throws TradeRefusal when a figure cannot be right.
 */
export function wetFilmOf(
  sheet: Pick<CoatingSheet, 'volumeSolids' | 'dft'>,
  dftUm: number,
  thinnerPct: number,
): WetFilm {
  const { volumeSolids: volumeSolidsPct, dft } = sheet;
  if (!dft) {
    const wftUm = whole(wetFilmUm(dftUm, volumeSolidsPct, thinnerPct));
    return { room: 'open', wftUm, leastUm: wftUm, mostUm: wftUm };
  }
  const asked = { dftUm, dftMinUm: dft.min, dftMaxUm: dft.max, volumeSolidsPct, thinnerPct };
  const band = wetFilmBand(asked);
  const leastUm = wholeUp(band.leastUm);
  const mostUm = wholeDown(band.mostUm);
  // A range narrower than a micrometre may have no whole figure inside it.
  const wftUm = leastUm > mostUm ? whole(band.targetUm) : clamp(whole(band.targetUm), leastUm, mostUm);
  if (band.edge === 'both' || leastUm > mostUm) return { room: 'exact', wftUm, leastUm, mostUm };
  return { room: band.edge === 'none' ? 'band' : band.edge, wftUm, leastUm, mostUm };
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
