import type { CoatingSheet } from '../model/coating-sheet.ts';
import { strangeCodes } from './hazard-codes.ts';
import type { UsedCoating } from './used.ts';

/**
 * What a coating's sheet says about harm, from GHS hazard statements (UN Globally Harmonized System) and the EUH
 * statements of Regulation (EC) 1272/2008. A sheet without any code says nothing, and nothing known is the hazardous case;
 * a code that does not exist stood for one nobody knows, so it is the hazardous case as well.
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
 * `doubt`: a polyurethane, or a sheet with H334 (allergy of the airways), that says it has no isocyanate. That may be true,
 * but it is more often a slip of copying, and somebody must look before anybody breathes it.
 */
export function inhalationOf(sheet: CoatingSheet | null): Inhalation {
  if (!sheet) return 'unknown';
  if (sheet.isocyanate || sheet.hazards.some((code) => code.startsWith('EUH204'))) return 'isocyanate';
  if (sheet.family === 'polyurethane' || sheet.hazards.includes('H334')) return 'doubt';
  if (codesUnknown(sheet)) return 'unknown';
  return sheet.hazards.some((code) => BREATHED.test(code)) ? 'code' : 'none';
}

/** True when no code, or not every code, says what the harm is. */
export const codesUnknown = ({ hazards }: CoatingSheet): boolean =>
  hazards.length === 0 || strangeCodes(hazards).length > 0;

export const breathedCodes = (sheet: CoatingSheet | null): string => codes(sheet, BREATHED);
export const touchedCodes = (sheet: CoatingSheet | null): string => codes(sheet, TOUCHED);

/** True when skin or eyes are harmed, or when nobody knows. */
export function harmsByTouch(sheet: CoatingSheet | null): boolean {
  return (
    !sheet || sheet.isocyanate || codesUnknown(sheet) || sheet.hazards.some((code) => TOUCHED.test(code))
  );
}

/**
 * Why a coating's day can burn; null when neither paint, thinner nor flush solvent can. `thinned`: a thinner in use has a
 * lower flash point than the paint. `solvent`: only thinner or flush solvent may burn.
 */
export type Flammable = 'flash' | 'thinned' | 'code' | 'solvent' | 'unknown';

export function flammableOf(used: UsedCoating): Flammable | null {
  const { sheet } = used;
  if (!sheet) return 'unknown';
  const paint = paintBurns(sheet);
  if (paint === 'flash') return lowestFlashC(used) === sheet.flashPointC ? 'flash' : 'thinned';
  if (paint) return paint;
  return (isThinned(used) && thinnerBurns(sheet)) || flushBurns(sheet) ? 'solvent' : null;
}

/** Why the paint itself, unthinned, can burn; null when it cannot. */
export function paintBurns(sheet: CoatingSheet): 'flash' | 'code' | 'unknown' | null {
  const flash = sheet.flashPointC;
  if (flash !== undefined && flash <= FLAMMABLE_UP_TO_C) return 'flash';
  if (sheet.hazards.some((code) => FLAMMABLE.test(code))) return 'code';
  return flash === undefined ? 'unknown' : null;
}

/** True when the thinner can burn or nobody knows; plain water is the only one known not to without a flash point. */
export const thinnerBurns = (sheet: CoatingSheet): boolean =>
  burns(sheet.thinner?.flashPointC, sheet.thinner?.name ?? '');
/** The same for the flush solvent. */
export const flushBurns = (sheet: CoatingSheet): boolean => burns(sheet.flushFlashPointC, sheet.flushSolvent);

/** Lowest flash point of the paint and, where it is thinned, its thinner, °C; undefined when neither is known. */
export function lowestFlashC(used: UsedCoating): number | undefined {
  const { sheet } = used;
  const thinner = isThinned(used) ? sheet?.thinner?.flashPointC : undefined;
  const known = [sheet?.flashPointC, thinner].filter((flash) => flash !== undefined);
  return known.length > 0 ? Math.min(...known) : undefined;
}

/** The lowest flash point of all that is sprayed and flushed with, °C; null when that of anything burning is not known. */
export function nearestFlashC(used: UsedCoating): number | null {
  const { sheet } = used;
  if (!sheet) return null;
  const inUse = [
    ...(paintBurns(sheet) ? [sheet.flashPointC] : []),
    ...(isThinned(used) && thinnerBurns(sheet) ? [sheet.thinner?.flashPointC] : []),
    ...(flushBurns(sheet) ? [sheet.flushFlashPointC] : []),
  ];
  const known = inUse.filter((flash) => flash !== undefined);
  return known.length > 0 && known.length === inUse.length ? Math.min(...known) : null;
}

function isThinned({ jobs }: UsedCoating): boolean {
  return jobs.some((job) => job.thinnerPct > 0);
}

function burns(flashC: number | undefined, name: string): boolean {
  return flashC === undefined ? !isWater(name) : flashC <= FLAMMABLE_UP_TO_C;
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
