import { flushPlanOf } from '../../facts/flush-plan.ts';
import { wholeUp } from '../../facts/round.ts';
import { usedRigs } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** About how much dirty solvent the day leaves, and where it and the rags go. */
export const waste: CautionRule = {
  id: 'waste',
  grade: 'watch',
  params: ['litres'],
  eachParams: [],
  questions: [
    { id: 'rags', choices: 3 },
    { id: 'drain', choices: 3 },
  ],
  find({ day }) {
    const plans = usedRigs(day).flatMap(({ rig }) => (rig ? [flushPlanOf(day, rig).solventL] : []));
    if (plans.length === 0) return null;
    return { params: { litres: wholeUp(plans.reduce((sum, one) => sum + one, 0)) }, each: [] };
  },
};
