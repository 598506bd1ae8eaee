import { breathedCodes, inhalationOf } from '../../facts/hazards.ts';
import { placeKey, usedCoatings } from '../../facts/used.ts';
import { becauseDay, distinct } from '../because.ts';
import { breathed } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Mist of any paint goes into the lungs, so no coating is left out. Air-fed gear for isocyanate, for what is not known and
 * in a confined or enclosed space; otherwise the respirator that the safety data sheet names, whatever the codes.
 */
export const breathing: CautionRule = {
  id: 'breathing',
  grade: 'stop',
  tasks: 'everybody',
  params: ['air', 'isocyanate'],
  eachParams: ['coating', 'basis', 'codes'],
  questions: [
    { id: 'visor', choices: 3 },
    { id: 'after-spraying', choices: 3 },
  ],
  find({ day }) {
    const place = placeKey(day);
    const uncoded = place === 'open' ? 'mist' : 'place';
    const used = usedCoatings(day);
    const found = used
      .map(({ name, sheet }) => ({ coating: name, basis: inhalationOf(sheet), codes: breathedCodes(sheet) }))
      .map((row) => ({ ...row, basis: row.basis === 'none' ? uncoded : row.basis }));
    if (found.length === 0) return null;
    const isocyanate = found.some(({ basis }) => basis === 'isocyanate' || basis === 'doubt');
    const unknown = found.some(({ basis }) => basis === 'unknown');
    const mistOnly = found.every(({ basis }) => basis === 'mist');
    return {
      params: {
        air: isocyanate || unknown || place !== 'open' ? 'fed' : mistOnly ? 'sheet' : 'mask',
        isocyanate: isocyanate ? 'yes' : 'no',
      },
      each: found,
      because: distinct([
        ...used.map((one) => breathed(one) ?? becauseDay('jobs.coating', one.name)),
        ...(place === 'open' ? [] : [becauseDay('surroundings', day.entry.surroundings)]),
      ]),
    };
  },
};
