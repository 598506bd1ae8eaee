import { inRange } from './refusal.ts';

const ratioPart = (field: string, value: number) =>
  inRange(field, value, 0.01, 1000, 'parts by volume', 'Copy the ratio by volume from the data sheet.');
const litres = (field: string, value: number) =>
  inRange(field, value, 0.01, 10_000, 'L', 'Measure the volume in litres.');

export interface MixInput {
  /** Parts of base (A) by volume, 0.01 to 1000. */
  readonly ratioA: number;
  /** Parts of hardener (B) by volume, 0.01 to 1000. */
  readonly ratioB: number;
  /** Litres of A and B together, without thinner, 0.01 to 10 000. */
  readonly mixedLitres: number;
  /** Volumes of thinner per 100 volumes of A and B together, 0 to 100. */
  readonly thinnerPct: number;
}

export interface MixSplit {
  readonly aL: number;
  readonly bL: number;
  readonly thinnerL: number;
  /** Litres in the pot, thinner included. */
  readonly totalL: number;
}

/**
 * Litres of base, hardener and thinner for a mix.
 * Source: arithmetic of the ratio by volume; thinner is added at mixing, never later to stretch the pot life (Unified
 * Facilities Guide Specification 09971).
 * @throws TradeRefusal for a value out of range.
 */
export function splitMix(input: MixInput): MixSplit {
  const a = ratioPart('ratioA', input.ratioA);
  const b = ratioPart('ratioB', input.ratioB);
  const mixed = litres('mixedLitres', input.mixedLitres);
  const thinner = inRange(
    'thinnerPct',
    input.thinnerPct,
    0,
    100,
    '%',
    'Thinner is counted per 100 volumes of A and B together.',
  );
  const thinnerL = (mixed * thinner) / 100;
  return {
    aL: (mixed * a) / (a + b),
    bL: (mixed * b) / (a + b),
    thinnerL,
    totalL: mixed + thinnerL,
  };
}

export interface OffRatioInput {
  readonly ratioA: number;
  readonly ratioB: number;
  /** Litres of base really used, 0.01 to 10 000. */
  readonly aL: number;
  /** Litres of hardener really used, 0.01 to 10 000. */
  readonly bL: number;
}

export interface OffRatio {
  /** Parts of A to one part of B as mixed. */
  readonly actualRatio: number;
  /** Hardener against what the base needs, in %: −12.5 is an eighth short, 0 is right, positive is too much. */
  readonly hardenerErrorPct: number;
}

/**
 * How far a mix is from its ratio. What error is still usable is the maker's to say; this only measures it.
 * Source: arithmetic of the ratio by volume.
 * @throws TradeRefusal for a value out of range, no hardener at all included.
 */
export function offRatio(input: OffRatioInput): OffRatio {
  const a = ratioPart('ratioA', input.ratioA);
  const b = ratioPart('ratioB', input.ratioB);
  const aL = litres('aL', input.aL);
  const bL = litres('bL', input.bL);
  const needed = (aL * b) / a;
  return { actualRatio: aL / bL, hardenerErrorPct: (bL / needed - 1) * 100 };
}
