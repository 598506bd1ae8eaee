import { usedRigs } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** The order that never opens a line under pressure. Only the step that takes the power off depends on the drive. */
export const pressureRelief: CautionRule = {
  id: 'pressure-relief',
  grade: 'stop',
  params: [],
  eachParams: ['rig', 'drive'],
  questions: [
    { id: 'pump-stopped', choices: 3 },
    { id: 'blocked-tip', choices: 3 },
  ],
  find({ day }) {
    const each = usedRigs(day).map(({ name, rig }) => ({ rig: name, drive: rig?.drive ?? 'unknown' }));
    return each.length > 0 ? { params: {}, each } : null;
  },
};
