import { wetFilmUm } from './film.ts';
import { inRange } from './refusal.ts';

export interface WetFilmBandInput {
  /** Dry film to reach, within the sheet's range. */
  readonly dftUm: number;
  /** Least dry film of one coat on the sheet, 1 to 20 000 µm. */
  readonly dftMinUm: number;
  /** Most dry film of one coat on the sheet, `dftMinUm` to 20 000 µm. */
  readonly dftMaxUm: number;
  /** Volume solids of the unthinned paint, 1 to 100 %. */
  readonly volumeSolidsPct: number;
  /** Volumes of thinner per 100 volumes of paint, 0 to 100. */
  readonly thinnerPct: number;
}

/** Where the target lies in the sheet's range: with room on both sides, at one end of it, or at both. */
export type FilmEdge = 'none' | 'thin' | 'thick' | 'both';

export interface WetFilmBand {
  readonly targetUm: number;
  /** Wet film that dries to the least dry film of the sheet, µm. */
  readonly leastUm: number;
  /** Wet film that dries to the most dry film of the sheet, µm. */
  readonly mostUm: number;
  readonly edge: FilmEdge;
}

/**
 * A target this near an end of the sheet's range has no room there: nobody sprays a wet film truer than to a twentieth
 * (common practice, no source).
 */
const NO_ROOM = 0.05;

/**
 * Wet film to aim at, with the lowest and the highest that keep the dry film inside the sheet's range, µm.
 * This band steers the gun. Whether the dry film is accepted is for the inspector by the standard in the contract, such
 * as no reading under 0.8 of the nominal film and, where no maximum is agreed, none over 3 times it (ISO 19840, second-hand).
 * Source: definition of volume solids; the sheet's range for one coat.
 * @throws TradeRefusal for a value out of range, a range the wrong way round, or a target outside it.
 */
export function wetFilmBand(input: WetFilmBandInput): WetFilmBand {
  const { volumeSolidsPct, thinnerPct } = input;
  const copied = 'Copy the dry film range of one coat from the data sheet.';
  const min = inRange('dftMinUm', input.dftMinUm, 1, 20_000, 'µm', copied);
  const max = inRange('dftMaxUm', input.dftMaxUm, min, 20_000, 'µm', copied);
  const target = inRange('dftUm', input.dftUm, min, max, 'µm', 'The sheet gives this range for one coat.');
  const wet = (dftUm: number) => wetFilmUm(dftUm, volumeSolidsPct, thinnerPct);
  const thin = target <= min * (1 + NO_ROOM);
  const thick = target >= max * (1 - NO_ROOM);
  return {
    targetUm: wet(target),
    leastUm: wet(min),
    mostUm: wet(max),
    edge: thin && thick ? 'both' : thin ? 'thin' : thick ? 'thick' : 'none',
  };
}
