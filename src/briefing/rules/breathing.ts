import { breathedCodes, inhalationOf } from '../../facts/hazards.ts';
import { placeKey, usedCoatings } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/**
 * By isocyanate, H-codes and place. Air-fed gear for isocyanate, for what is not known and in a confined space; otherwise
 * what the safety data sheet names. Outdoors a coating whose codes name no harm by breathing is left out.
 */
export const breathing: CautionRule = {
  id: 'breathing',
  grade: 'stop',
  params: ['air', 'isocyanate'],
  eachParams: ['coating', 'basis', 'codes'],
  questions: [
    { id: 'visor', choices: 3 },
    { id: 'after-spraying', choices: 3 },
  ],
  find({ day }) {
    const place = placeKey(day);
    const found = usedCoatings(day)
      .map(({ name, sheet }) => ({ coating: name, basis: inhalationOf(sheet), codes: breathedCodes(sheet) }))
      .map((row) => (row.basis === 'none' && place !== 'open' ? { ...row, basis: 'place' as const } : row))
      .filter(({ basis }) => basis !== 'none');
    if (found.length === 0) return null;
    const isocyanate = found.some(({ basis }) => basis === 'isocyanate' || basis === 'doubt');
    const unknown = found.some(({ basis }) => basis === 'unknown');
    return {
      params: {
        air: isocyanate || unknown || place === 'confined' ? 'fed' : 'mask',
        isocyanate: isocyanate ? 'yes' : 'no',
      },
      each: found,
    };
  },
};
