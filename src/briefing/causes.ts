import {
  breathedCodes,
  countsAsIsocyanate,
  flammableCodes,
  flammableOf,
  flushBurns,
  harmsByTouch,
  inhalationOf,
  paintBurns,
  touchedCodes,
} from '../facts/hazards.ts';
import { type UsedCoating, type UsedRig, usedRigs } from '../facts/used.ts';
import type { Day } from '../model/day.ts';
import { type Because, becauseCoating, becauseDay, becauseRig } from './because.ts';

/** Causes that several rules share, and what of a sheet the readings in `facts/hazards.ts` went by. */

/** Every rig here is airless: that it sprays today is enough. */
export function rigsSpray(day: Day): Because {
  return becauseDay(
    'jobs.rig',
    usedRigs(day).map(({ name }) => name),
  );
}

/** The figure without which nobody knows the pressure of a rig. */
export function pressureMissing({ name, rig }: UsedRig): Because {
  if (!rig) return becauseRig(name, 'drive', null);
  if (rig.drive !== 'air') return becauseDay('jobs.fluidBar', null);
  return rig.ratio === undefined ? becauseRig(name, 'ratio', null) : becauseDay('jobs.airBar', null);
}

/** Two-packs, and what nobody knows to be a one-pack; a one-pack that goes off all the same does so by its pot life. */
export function twoPacks(used: readonly UsedCoating[]): readonly Because[] {
  return used.map(({ name, sheet }) =>
    sheet?.parts === 1 && sheet.potLife
      ? becauseCoating(
          name,
          'potLife.minutes',
          sheet.potLife.map(({ minutes }) => minutes),
        )
      : becauseCoating(name, 'parts', sheet?.parts),
  );
}

/** What a sheet says, or keeps silent about, that makes breathing it a danger of its own; null: its mist alone. */
export function breathed({ name, sheet }: UsedCoating): Because | null {
  switch (inhalationOf(sheet)) {
    case 'isocyanate': {
      // EUH204 says isocyanate and is no breathing code besides.
      const codes = sheet?.hazards.filter((code) => code.startsWith('EUH204'));
      return sheet?.isocyanate
        ? becauseCoating(name, 'isocyanate', true)
        : becauseCoating(name, 'hazards', codes);
    }
    case 'doubt':
      return sheet?.family === 'polyurethane'
        ? becauseCoating(name, 'family', sheet.family)
        : becauseCoating(name, 'hazards', breathedCodes(sheet));
    case 'code':
      return becauseCoating(name, 'hazards', breathedCodes(sheet));
    case 'unknown':
      return becauseCoating(name, 'hazards', sheet?.hazards);
    case 'none':
      return null;
  }
}

/** Codes for skin and eyes; no codes at all count, and isocyanate counts without one, as does the doubt about it. */
export function touched(used: UsedCoating): readonly Because[] {
  const { name, sheet } = used;
  if (!harmsByTouch(sheet)) return [];
  const codes = touchedCodes(sheet);
  if (codes !== 'none') return [becauseCoating(name, 'hazards', codes)];
  const isocyanate = countsAsIsocyanate(sheet) ? breathed(used) : null;
  return [isocyanate ?? becauseCoating(name, 'hazards', sheet?.hazards)];
}

/**
 * Why a coating counts as one that burns: the paint before its thinner before the flush solvent, because a day with paint
 * that burns stays one whatever it is thinned with. Nothing for one that does not burn.
 */
export function burns(used: UsedCoating): readonly Because[] {
  const { name, sheet, jobs } = used;
  if (flammableOf(used) === null) return [];
  const paint = sheet ? paintBurns(sheet) : 'unknown';
  switch (paint) {
    case 'flash':
    case 'unknown':
      return [becauseCoating(name, 'flashPointC', sheet?.flashPointC)];
    case 'code':
      return [becauseCoating(name, 'hazards', flammableCodes(sheet))];
    case null: {
      if (sheet && flushBurns(sheet))
        return [becauseCoating(name, 'flushFlashPointC', sheet.flushFlashPointC)];
      const pct = Math.max(...jobs.map(({ thinnerPct }) => thinnerPct));
      return [
        becauseCoating(name, 'thinner.flashPointC', sheet?.thinner?.flashPointC),
        becauseDay('jobs.thinnerPct', pct),
      ];
    }
  }
}
