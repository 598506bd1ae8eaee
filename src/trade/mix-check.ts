import { kitFault, type MixFault, partsFault, ratioFault, splitMix, thinnerFault } from './mix.ts';

/** One mix as somebody wrote it down, and what the sheet says about it. */
export interface MixToCheck {
  /** Litres of base and hardener together, without thinner. */
  readonly mixedLitres: number;
  readonly thinnerL: number;
  /** Litres measured of each part; neither for full kits. */
  readonly aL?: number | undefined;
  readonly bL?: number | undefined;
  /** Parts by volume; null for a one-pack. */
  readonly ratio: { readonly a: number; readonly b: number } | null;
  /** Litres of base and hardener in one kit, where the sheet has it. */
  readonly kitLitres?: number | undefined;
  /** Most thinner on the sheet, % of the paint; 0 where it has none. */
  readonly thinnerMostPct: number;
}

export type CheckedMix =
  | { readonly fault: MixFault }
  | { readonly fault: null; readonly aL: number; readonly bL: number };

/**
 * The first thing that is wrong with a mix, or its parts in litres: thinner, then ratio and sum of measured parts, or
 * whole kits where nothing was measured.
 * @throws TradeRefusal for a value out of range.
 */
export function checkMix(mix: MixToCheck): CheckedMix {
  const { mixedLitres, ratio, aL, bL } = mix;
  const thinner = thinnerFault(mixedLitres, mix.thinnerL, mix.thinnerMostPct);
  if (thinner) return { fault: thinner };
  if (!ratio) return { fault: null, aL: mixedLitres, bL: 0 };
  if (aL === undefined && bL === undefined) {
    const kit = mix.kitLitres === undefined ? null : kitFault(mixedLitres, mix.kitLitres);
    if (kit) return { fault: kit };
    const split = splitMix({ ratioA: ratio.a, ratioB: ratio.b, mixedLitres, thinnerPct: 0 });
    return { fault: null, aL: split.aL, bL: split.bL };
  }
  if (aL === undefined || bL === undefined)
    return { fault: { kind: 'one-part-missing', missing: aL === undefined ? 'a' : 'b' } };
  const fault = ratioFault({ ratioA: ratio.a, ratioB: ratio.b, aL, bL }) ?? partsFault(mixedLitres, aL, bL);
  return fault ? { fault } : { fault: null, aL, bL };
}
