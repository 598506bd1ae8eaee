import type { CoatingSheet } from '../model/coating-sheet.ts';

/** Density of the mixed paint, kg/L, from the lightest to the heaviest it may be. */
export interface DensityRange {
  readonly low: number;
  readonly high: number;
  /** Copied from the sheet, so both ends are the same figure. */
  readonly known: boolean;
}

/** Common practice, no source: most paints weigh 1.0 to 1.6 kg a litre, those full of zinc dust up to about 3.2. */
const MOST = { low: 1.0, high: 1.6 };
const WITH_ZINC = { low: 1.6, high: 3.2 };

/**
 * The sheet's density, or the range paint of its kind may have. Whoever asks takes the end that warns: the heavy one for
 * the pressure under a long drop, the light one for what comes out of a tip and the air that takes. Thinner makes paint a
 * little lighter; that is left out.
 */
export function densityOf(sheet: CoatingSheet | null): DensityRange {
  if (sheet?.densityKgPerL !== undefined)
    return { low: sheet.densityKgPerL, high: sheet.densityKgPerL, known: true };
  switch (sheet?.family) {
    case 'zinc-silicate':
    case 'zinc-epoxy':
      return { ...WITH_ZINC, known: false };
    case 'epoxy':
    case 'polyurethane':
    case 'polysiloxane':
    case 'alkyd':
    case 'acrylic':
      return { ...MOST, known: false };
    case 'other':
    case undefined:
      return { low: MOST.low, high: WITH_ZINC.high, known: false };
  }
}
