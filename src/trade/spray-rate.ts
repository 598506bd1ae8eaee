import { layerUm, spreadingRateM2PerL, thinnedSolidsPct } from './film.ts';
import { inRange } from './refusal.ts';

export interface SprayRateInput {
  /** Thinned paint out of the tip, 0 to 1000 L/min. */
  readonly flowLPerMin: number;
  /** Volume solids of the unthinned paint, 1 to 100 %. */
  readonly volumeSolidsPct: number;
  /** Thinner per 100 volumes of paint, 0 to 100. */
  readonly thinnerPct: number;
  /** Dry film to reach, 1 to 20 000 µm. */
  readonly dftUm: number;
  /** Dry film that fills the blast profile, 0 to 1000 µm; first coat only. */
  readonly profileAllowanceUm?: number | undefined;
  /** Share of the paint used that is lost, 0 to 95 %. */
  readonly lossPct: number;
}

/**
 * Square metres one gun covers in a minute with the trigger pulled, at the film asked for. The day is slower: the trigger
 * is shut between strokes, on moves and on breaks.
 * Source: geometry, 1 L of dry film is a layer of 1 µm on 1000 m²; the paint out of the tip is thinned already.
 * @throws TradeRefusal for a value out of range.
 */
export function m2PerMinute(input: SprayRateInput): number {
  const flow = inRange('flowLPerMin', input.flowLPerMin, 0, 1000, 'L/min', 'Work it out from the tip.');
  const solids = thinnedSolidsPct(input.volumeSolidsPct, input.thinnerPct);
  return flow * spreadingRateM2PerL(layerUm(input), solids, input.lossPct);
}
