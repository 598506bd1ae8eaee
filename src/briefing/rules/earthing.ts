import { driestPct, expectedField } from '../../facts/expected-air.ts';
import { UNREAD, wholeDown } from '../../facts/round.ts';
import { usedCoatings, usedRigs } from '../../facts/used.ts';
import { becauseDay } from '../because.ts';
import { burns } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/** Below this humidity charge hardly leaks away (common practice, no source). */
const DRY_BELOW_PCT = 40;

/** A spark from charge needs something to light: left out only on a day with nothing that burns. */
export const earthing: CautionRule = {
  id: 'earthing',
  grade: 'stop',
  tasks: ['spraying', 'mixing', 'flushing'],
  params: ['air', 'rh'],
  eachParams: ['rig', 'wheels'],
  questions: [
    { id: 'painted-steel', choices: 3 },
    { id: 'which-pail', choices: 3 },
  ],
  find({ day }) {
    const because = usedCoatings(day).flatMap(burns);
    if (because.length === 0) return null;
    const rhPct = driestPct(day);
    const dry = rhPct < DRY_BELOW_PCT;
    return {
      params: { air: dry ? 'dry' : 'humid', rh: dry ? wholeDown(rhPct) : UNREAD },
      each: usedRigs(day).map(({ name, rig }) => ({ rig: name, wheels: rig?.wheels ?? 'rubber' })),
      because: [...because, ...(dry ? [becauseDay(expectedField(day, 'rhPct', rhPct), rhPct)] : [])],
    };
  },
};
