import type { CoatingSheet } from '../model/coating-sheet.ts';
import { strangeCodes } from './hazard-codes.ts';
import { potLifeUnknown } from './pot-life-points.ts';

/** What a sheet leaves out or says against itself. Each is read the dangerous way until somebody mends the sheet. */
export type SheetDoubt =
  | 'pot-life'
  | 'no-codes'
  | 'strange-code'
  | 'isocyanate-by-code'
  | 'isocyanate-by-family'
  | 'isocyanate-by-h334'
  | 'isocyanate-uncoded'
  | 'flash-uncoded';

/** GHS counts a liquid with a flash point up to this as H224, H225 or H226. */
const CODED_UP_TO_C = 60;

/**
 * EUH204 is "Contains isocyanates", H334 the respiratory sensitiser, H224 to H226 the flammable liquids up to a flash
 * point of 60 °C: Regulation (EC) No 1272/2008, annexes I (2.6, 3.4) and II (2.4).
 */
export function sheetDoubts(sheet: CoatingSheet): readonly SheetDoubt[] {
  const coded = sheet.hazards.length > 0;
  const has = (...codes: readonly string[]) => codes.some((code) => hasCode(sheet, code));
  const found: SheetDoubt[] = [];
  if (potLifeUnknown(sheet)) found.push('pot-life');
  if (!coded) found.push('no-codes');
  if (strangeCodes(sheet.hazards).length > 0) found.push('strange-code');
  const doubt = isocyanateDoubt(sheet);
  if (doubt) found.push(`isocyanate-by-${doubt}`);
  if (sheet.isocyanate && coded && !has('EUH204', 'H334')) found.push('isocyanate-uncoded');
  const flash = sheet.flashPointC;
  if (flash !== undefined && flash <= CODED_UP_TO_C && coded && !has('H224', 'H225', 'H226'))
    found.push('flash-uncoded');
  return found;
}

/**
 * Why a sheet that says it has no isocyanate is not believed; null when it is, or says it has some. Its own code is plain
 * speech; a polyurethane without any, or H334, may be true but is more often a slip of copying.
 */
export function isocyanateDoubt(sheet: CoatingSheet): 'code' | 'family' | 'h334' | null {
  if (sheet.isocyanate) return null;
  if (hasCode(sheet, 'EUH204')) return 'code';
  if (sheet.family === 'polyurethane') return 'family';
  return hasCode(sheet, 'H334') ? 'h334' : null;
}

/** A letter behind a code is a slip of its own; it hides no danger. */
const hasCode = ({ hazards }: CoatingSheet, code: string): boolean =>
  hazards.some((one) => one.startsWith(code));
