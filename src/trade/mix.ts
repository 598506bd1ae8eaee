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

/** A hardener error larger than this would not cure as the sheet says. From memory: a common limit. */
export const RATIO_TOLERANCE_PCT = 5;
/** How far measured parts may be from the litres written down, per cent of these. Reading two marks is not exact. */
export const PARTS_TOLERANCE_PCT = 5;
/** How far litres may be from whole kits, as a share of one kit: what stays in the tin. */
const KIT_TOLERANCE = 0.01;
/** Thinner over the limit by no more than this, in per cent of the paint, is the reading of a measuring jug. */
const THINNER_TOLERANCE_PCT = 0.05;
/** Keeps floating-point dust from refusing what lies exactly on a limit. */
const DUST = 1e-9;

export interface WholeKits {
  readonly count: number;
  readonly litres: number;
}

/** What is wrong with a mix, with the numbers that say so. Words and refusals are for others. */
export type MixFault =
  | {
      readonly kind: 'thinner-over';
      readonly foundPct: number;
      readonly mostPct: number;
      readonly mostL: number;
    }
  | { readonly kind: 'one-part-missing'; readonly missing: 'a' | 'b' }
  | {
      readonly kind: 'off-ratio';
      readonly neededBL: number;
      readonly actualRatio: number;
      readonly hardenerErrorPct: number;
    }
  | { readonly kind: 'parts-do-not-add'; readonly partsL: number; readonly mixedL: number }
  | { readonly kind: 'part-kit'; readonly below: WholeKits | null; readonly above: WholeKits };

export type FaultOf<K extends MixFault['kind']> = Extract<MixFault, { kind: K }>;

/**
 * Thinner over the sheet's limit, in % of the paint (0 to 100, 0 where the sheet has no thinner). Thinner never buys time.
 * Source: the coating sheet; counted on the paint, not on the thinned mix.
 * @throws TradeRefusal for a value out of range.
 */
export function thinnerFault(
  mixedLitres: number,
  thinnerL: number,
  mostPct: number,
): FaultOf<'thinner-over'> | null {
  const mixed = litres('mixedLitres', mixedLitres);
  const added = inRange('thinnerL', thinnerL, 0, 10_000, 'L', 'Measure the thinner in litres.');
  const most = inRange('mostPct', mostPct, 0, 100, '%', 'Copy the most thinner from the data sheet.');
  const foundPct = (added / mixed) * 100;
  if (foundPct <= most + THINNER_TOLERANCE_PCT + DUST) return null;
  return { kind: 'thinner-over', foundPct, mostPct: most, mostL: (mixed * most) / 100 };
}

/**
 * Base and hardener further from the ratio than `RATIO_TOLERANCE_PCT`, counted on the hardener that the base needs.
 * @throws TradeRefusal for a value out of range, no hardener at all included.
 */
export function ratioFault(input: OffRatioInput): FaultOf<'off-ratio'> | null {
  const off = offRatio(input);
  if (Math.abs(off.hardenerErrorPct) <= RATIO_TOLERANCE_PCT + DUST) return null;
  return { kind: 'off-ratio', neededBL: (input.aL * input.ratioB) / input.ratioA, ...off };
}

/**
 * Measured parts that do not make up the litres written as mixed, within `PARTS_TOLERANCE_PCT`.
 * @throws TradeRefusal for a value out of range.
 */
export function partsFault(mixedLitres: number, aL: number, bL: number): FaultOf<'parts-do-not-add'> | null {
  const mixedL = litres('mixedLitres', mixedLitres);
  const partsL = litres('aL', aL) + litres('bL', bL);
  if (Math.abs(partsL - mixedL) <= (PARTS_TOLERANCE_PCT / 100) * mixedL + DUST) return null;
  return { kind: 'parts-do-not-add', partsL, mixedL };
}

/**
 * Litres that are no whole number of kits, with the nearest that are: no part kits (Unified Facilities Guide
 * Specification 09971), unless both parts are measured.
 * @throws TradeRefusal for a value out of range.
 */
export function kitFault(mixedLitres: number, kitLitres: number): FaultOf<'part-kit'> | null {
  const mixed = litres('mixedLitres', mixedLitres);
  const kit = litres('kitLitres', kitLitres);
  const kits = mixed / kit;
  const nearest = Math.round(kits);
  if (nearest >= 1 && Math.abs(kits - nearest) <= KIT_TOLERANCE + DUST) return null;
  const whole = (count: number): WholeKits => ({ count, litres: count * kit });
  const below = Math.floor(kits);
  return { kind: 'part-kit', below: below >= 1 ? whole(below) : null, above: whole(below + 1) };
}
