import { usedThatSets } from '../../facts/used.ts';
import { twoPacks } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/** Paint that goes off heats itself; shut in or kept deep it can smoke, burst a tin or burn. */
export const leftoverPaint: CautionRule = {
  id: 'leftover-paint',
  grade: 'must',
  tasks: ['mixing', 'flushing'],
  params: [],
  eachParams: ['coating'],
  questions: [
    { id: 'half-a-pot', choices: 3 },
    { id: 'smoking-pot', choices: 3 },
  ],
  find({ day }) {
    const used = usedThatSets(day);
    const each = used.map(({ name }) => ({ coating: name }));
    return each.length > 0 ? { params: {}, each, habit: true, because: twoPacks(used) } : null;
  },
};
