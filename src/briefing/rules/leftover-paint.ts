import { usedTwoPacks } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** Mixed two-pack heats itself as it goes off; shut in or kept deep it can smoke, burst a tin or burn. */
export const leftoverPaint: CautionRule = {
  id: 'leftover-paint',
  grade: 'must',
  params: [],
  eachParams: ['coating'],
  questions: [
    { id: 'half-a-pot', choices: 3 },
    { id: 'smoking-pot', choices: 3 },
  ],
  find({ day }) {
    const each = usedTwoPacks(day).map(({ name }) => ({ coating: name }));
    return each.length > 0 ? { params: {}, each } : null;
  },
};
