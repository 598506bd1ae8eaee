import type { CoatingSheet } from '../model/coating-sheet.ts';
import { strangeCodes } from './hazard-codes.ts';
import { isocyanateDoubt } from './sheet-doubts.ts';
import type { UsedCoating } from './used.ts';

/**
 * What a coating's sheet says about harm, from GHS hazard statements (UN Globally Harmonized System) and the EUH
 * statements of Regulation (EC) 1272/2008. A sheet without any code says nothing, and nothing known is the hazardous case;
 * a code that does not exist stood for one nobody knows, so it is the hazardous case as well.
 */

/**
 * Fatal, toxic, harmful, allergy, irritation, drowsiness by breathing; cancer, genes, unborn children, organs; chlorine and
 * cadmium fumes in use; droplets or dust that are dangerous when sprayed.
 */
const BREATHED = /^(H33[0-6]|H34[01]|H35[01]|H36[01]|H37[0-3]|EUH071|EUH20[67]|EUH21[12])/;
/**
 * Contact with skin or eyes: fatal, toxic, harmful, burns, irritation, allergy, eye damage, poison; dry skin; glue that
 * bonds at once, chromium, isocyanate, epoxy, allergens.
 */
const TOUCHED = /^(H31[0-9]|H320|EUH066|EUH070|EUH20[23458])/;
/**
 * What burns: gases, aerosols, liquids of category 1 to 4, solids; what heats, takes fire or bursts by itself; gas from
 * water; peroxides, and vapour that becomes flammable in use.
 */
const FLAMMABLE = /^(H22[0-8]|H24[0-2]|H25[0-2]|H26[01]|EUH01[89]|EUH209)/;

/** GHS counts a liquid as flammable up to this flash point. */
const FLAMMABLE_UP_TO_C = 93;

export type Inhalation = 'isocyanate' | 'doubt' | 'code' | 'unknown' | 'none';

/**
 * `doubt`: a polyurethane, or a sheet with H334 (allergy of the airways), that says it has no isocyanate. That may be true,
 * but it is more often a slip of copying, and somebody must look before anybody breathes it.
 */
export function inhalationOf(sheet: CoatingSheet | null): Inhalation {
  if (!sheet) return 'unknown';
  const doubt = isocyanateDoubt(sheet);
  if (sheet.isocyanate || doubt === 'code') return 'isocyanate';
  if (doubt) return 'doubt';
  if (codesUnknown(sheet)) return 'unknown';
  return sheet.hazards.some((code) => BREATHED.test(code)) ? 'code' : 'none';
}

/** True when no code, or not every code, says what the harm is. */
export const codesUnknown = ({ hazards }: CoatingSheet): boolean =>
  hazards.length === 0 || strangeCodes(hazards).length > 0;

export const breathedCodes = (sheet: CoatingSheet | null): string => codes(sheet, BREATHED);
export const touchedCodes = (sheet: CoatingSheet | null): string => codes(sheet, TOUCHED);

/** True where isocyanate is known or has to be assumed. */
export function countsAsIsocyanate(sheet: CoatingSheet | null): boolean {
  const harm = inhalationOf(sheet);
  return harm === 'isocyanate' || harm === 'doubt';
}

/** True when skin or eyes are harmed, or when nobody knows. Isocyanate goes through skin, so its doubt counts here too. */
export function harmsByTouch(sheet: CoatingSheet | null): boolean {
  if (!sheet || codesUnknown(sheet) || countsAsIsocyanate(sheet)) return true;
  return sheet.hazards.some((code) => TOUCHED.test(code));
}

/**
 * Why a coating's day can burn; null when neither paint, thinner nor flush solvent can. `thinned`: a thinner in use has a
 * lower flash point than the paint. `solvent`: only thinner or flush solvent may burn. `unknown`: the flash point of what
 * is sprayed is not known, be it the paint's or that of the thinner in it.
 */
export type Flammable = 'flash' | 'thinned' | 'code' | 'solvent' | 'unknown';

export function flammableOf(used: UsedCoating): Flammable | null {
  const { sheet } = used;
  if (!sheet) return 'unknown';
  const paint = paintBurns(sheet);
  if (paint === 'flash') {
    const lowest = lowestFlashC(used);
    return lowest === undefined ? 'unknown' : lowest === sheet.flashPointC ? 'flash' : 'thinned';
  }
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

/** Lowest flash point of the paint and of a thinner in it that burns, °C; undefined when one of them is not known. */
export function lowestFlashC(used: UsedCoating): number | undefined {
  const { sheet } = used;
  const paint = sheet?.flashPointC;
  if (!sheet || !isThinned(used) || !thinnerBurns(sheet)) return paint;
  const thinner = sheet.thinner?.flashPointC;
  return paint === undefined || thinner === undefined ? undefined : Math.min(paint, thinner);
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

/** True when some job of today thins it. */
export function isThinned({ jobs }: UsedCoating): boolean {
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
