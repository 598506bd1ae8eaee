import { harmsByTouch, touchedCodes } from '../../facts/hazards.ts';
import { usedCoatings } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** Burns, allergy for life, eye damage: by the H31x codes, by isocyanate, and when no code is known. */
export const skinAndEyes: CautionRule = {
  id: 'skin-and-eyes',
  grade: 'must',
  params: ['eyewash'],
  eachParams: ['coating', 'codes'],
  questions: [
    { id: 'splash', choices: 3 },
    { id: 'solvent-hands', choices: 3 },
  ],
  find({ day }) {
    const each = usedCoatings(day)
      .filter(({ sheet }) => harmsByTouch(sheet))
      .map(({ name, sheet }) => ({ coating: name, codes: touchedCodes(sheet) }));
    return each.length > 0 ? { params: { eyewash: day.emergency.eyewash }, each } : null;
  },
};
