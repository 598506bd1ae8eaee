import { rigName, selectKey } from '../../facts/used.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Steps of the last flush that were left out with a reason. */
export const missedSteps: CautionRule = {
  id: 'missed-steps',
  grade: 'must',
  tasks: ['spraying', 'flushing'],
  params: ['count'],
  eachParams: ['rig', 'step', 'reason'],
  questions: [
    { id: 'before-start', choices: 3 },
    { id: 'trust-line', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const steps = carriedIn?.skippedSteps ?? [];
    if (steps.length === 0) return null;
    return {
      params: { count: steps.length },
      each: steps.map(({ rig, step, reason }) => ({ rig: rigName(day, rig), step: selectKey(step), reason })),
      because: [...new Set(steps.map(({ rig }) => rig))].map((one) =>
        becauseYesterday(
          rigName(day, one),
          'skippedSteps',
          steps.filter(({ rig }) => rig === one).map(({ step }) => step),
        ),
      ),
    };
  },
};
