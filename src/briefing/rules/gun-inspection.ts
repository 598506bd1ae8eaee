import { usedRigs } from '../../facts/used.ts';
import { rigsSpray } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/** Every airless gun, every day: the part that people hold at full pressure. */
export const gunInspection: CautionRule = {
  id: 'gun-inspection',
  grade: 'must',
  tasks: ['spraying', 'flushing'],
  params: [],
  eachParams: ['rig'],
  questions: [
    { id: 'dropped', choices: 3 },
    { id: 'weeping', choices: 3 },
    { id: 'loose-lock', choices: 3 },
  ],
  find({ day }) {
    const rigs = usedRigs(day);
    if (rigs.length === 0) return null;
    return {
      params: {},
      each: rigs.map(({ name }) => ({ rig: name })),
      habit: true,
      because: [rigsSpray(day)],
    };
  },
};
