import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { UsedCoating } from './used.ts';

/**
 * What a coating's sheet says about harm, from GHS hazard statements (UN Globally Harmonized System) and the EUH
 * statements of Regulation (EC) 1272/2008. A sheet without any code says nothing, and nothing known is the hazardous case.
 */

/** Fatal, toxic, harmful, allergy, irritation, drowsiness by breathing; cancer, genes, unborn children, organs. */
const BREATHED = /^(H33[0-6]|H34[01]|H35[01]|H36[01]|H37[0-3]|EUH071)/;
/** Contact with skin or eyes: fatal, toxic, harmful, burns, irritation, allergy, eye damage; dry skin; epoxy, isocyanate. */
const TOUCHED = /^(H31[0-9]|EUH066|EUH20[3458])/;
/** Flammable liquids of category 1 to 4, and vapour that becomes flammable in use. */
const FLAMMABLE = /^(H22[4-7]|EUH018|EUH209)/;

/** GHS counts a liquid as flammable up to this flash point. */
const FLAMMABLE_UP_TO_C = 93;

export type Inhalation = 'isocyanate' | 'doubt' | 'code' | 'unknown' | 'none';

/**
 * `doubt`: a polyurethane whose sheet says it has no isocyanate. That may be true, but it is more often a slip of
 * copying, and somebody must look before anybody breathes it.
 */
export function inhalationOf(sheet: CoatingSheet | null): Inhalation {
  if (!sheet) return 'unknown';
  if (sheet.isocyanate || sheet.hazards.some((code) => code.startsWith('EUH204'))) return 'isocyanate';
  if (sheet.family === 'polyurethane') return 'doubt';
  if (sheet.hazards.length === 0) return 'unknown';
  return sheet.hazards.some((code) => BREATHED.test(code)) ? 'code' : 'none';
}

export const breathedCodes = (sheet: CoatingSheet | null): string => codes(sheet, BREATHED);
export const touchedCodes = (sheet: CoatingSheet | null): string => codes(sheet, TOUCHED);

/** True when skin or eyes are harmed, or when nobody knows. */
export function harmsByTouch(sheet: CoatingSheet | null): boolean {
  return (
    !sheet ||
    sheet.isocyanate ||
    sheet.hazards.length === 0 ||
    sheet.hazards.some((code) => TOUCHED.test(code))
  );
}

/** Why a coating's day can burn; null when neither paint, thinner nor flush solvent can. */
export type Flammable = 'flash' | 'code' | 'solvent' | 'unknown';

export function flammableOf({ sheet, jobs }: UsedCoating): Flammable | null {
  if (!sheet) return 'unknown';
  const flash = sheet.flashPointC;
  if (flash !== undefined && flash <= FLAMMABLE_UP_TO_C) return 'flash';
  if (sheet.hazards.some((code) => FLAMMABLE.test(code))) return 'code';
  if (flash === undefined) return 'unknown';
  // The sheet names thinner and flush solvent without a flash point; plain water is the only one known not to burn.
  const thinned = jobs.some((job) => job.thinnerPct > 0) && !isWater(sheet.thinner?.name ?? '');
  return thinned || !isWater(sheet.flushSolvent) ? 'solvent' : null;
}

export const flammableCodes = (sheet: CoatingSheet | null): string => codes(sheet, FLAMMABLE);

function isWater(name: string): boolean {
  return /^\s*((clean|fresh|warm|tap)\s+)?water\s*$/i.test(name);
}

/** `none` is a select case of the words. */
function codes(sheet: CoatingSheet | null, wanted: RegExp): string {
  const found = [...new Set((sheet?.hazards ?? []).filter((code) => wanted.test(code)))].sort();
  return found.length > 0 ? found.join(', ') : 'none';
}
