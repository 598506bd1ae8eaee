import { harmsByTouch, touchedCodes } from '../../facts/hazards.ts';
import { usedCoatings } from '../../facts/used.ts';
import { touched } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/** Burns, allergy for life, eye damage: by its codes, by isocyanate or the doubt about it, and when no code is known. */
export const skinAndEyes: CautionRule = {
  id: 'skin-and-eyes',
  grade: 'must',
  tasks: ['spraying', 'mixing', 'flushing'],
  params: ['eyewash'],
  eachParams: ['coating', 'codes'],
  questions: [
    { id: 'splash', choices: 3 },
    { id: 'solvent-hands', choices: 3 },
  ],
  find({ day }) {
    const used = usedCoatings(day).filter(({ sheet }) => harmsByTouch(sheet));
    const each = used.map(({ name, sheet }) => ({ coating: name, codes: touchedCodes(sheet) }));
    if (used.length === 0) return null;
    return { params: { eyewash: day.emergency.eyewash }, each, because: used.flatMap(touched) };
  },
};
