import { highestBar } from '../../facts/pressure.ts';
import { UNREAD, wholeUp } from '../../facts/round.ts';
import { usedRigs } from '../../facts/used.ts';
import { distinct } from '../because.ts';
import { pressureMissing, rigsSpray } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/** Every rig here is airless: its jet goes through skin. A rig whose pressure nobody knows comes first. */
export const injection: CautionRule = {
  id: 'injection',
  grade: 'stop',
  tasks: 'everybody',
  params: ['rig', 'state', 'bar', 'call'],
  eachParams: ['rig', 'state', 'bar'],
  questions: [
    { id: 'gloves', choices: 3 },
    { id: 'pinprick', choices: 3 },
  ],
  find({ day }) {
    const rigs = usedRigs(day).map((used) => ({ used, rig: used.name, reached: highestBar(day, used) }));
    const each = [...rigs]
      .sort((x, y) => (y.reached ?? Number.POSITIVE_INFINITY) - (x.reached ?? Number.POSITIVE_INFINITY) || 0)
      .map(({ rig, reached }) =>
        reached === null
          ? { rig, state: 'unknown', bar: UNREAD }
          : { rig, state: 'known', bar: wholeUp(reached) },
      );
    const [worst] = each;
    if (!worst) return null;
    const { rig, state, bar } = worst;
    const unknown = rigs.filter(({ reached }) => reached === null);
    return {
      params: { rig, state, bar, call: day.emergency.call },
      each,
      because: distinct([rigsSpray(day), ...unknown.map(({ used }) => pressureMissing(used))]),
    };
  },
};
