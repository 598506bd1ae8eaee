import type { DensityRange } from '../../facts/density.ts';
import type { Texts } from '../../texts/texts.ts';

/** As many decimals as a calculator check needs, without trailing zeros. Formulas are always metric: their constants are. */
export function decimals(value: number, most: number): number {
  const step = 10 ** most;
  return Math.round(value * step) / step + 0;
}

/** A density as it stands on the sheet, or the range counted with when it does not. */
export function densityText(texts: Texts, { low, high, known }: DensityRange): string {
  return known ? texts.say('why.v.density', { n: high }) : texts.say('why.v.density-range', { low, high });
}
