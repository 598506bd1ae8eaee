import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { PotLifePoint } from '../trade/pot-life.ts';

/**
 * A pot life nobody knows is counted as none at all: the shortest line the arithmetic takes, at the coldest temperature it
 * takes, is over within seconds of the mixing at any temperature people work in. No figure of any coating; never shown.
 */
const NONE_AT_ALL: readonly PotLifePoint[] = [{ c: -40, minutes: 1 }];

/** What a coating's clock is counted by; null for a one-pack without a pot life, which does not go off. */
export function potLifePoints(sheet: CoatingSheet | undefined): readonly PotLifePoint[] | null {
  if (sheet?.potLife) return sheet.potLife;
  return potLifeUnknown(sheet) ? NONE_AT_ALL : null;
}

/** True for a two-pack whose sheet gives no pot life, and for paint without a sheet: it may be one. */
export const potLifeUnknown = (sheet: CoatingSheet | undefined): boolean =>
  sheet?.parts !== 1 && !sheet?.potLife;
