import { tenth } from '../../facts/round.ts';
import { solventUse } from '../../facts/settled-solvent.ts';
import { rigName } from '../../facts/used.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Settled solvent of the last shift: today's first rinse, where it is the right solvent for today's coating. */
export const solventCarryOver: CautionRule = {
  id: 'solvent-carry-over',
  grade: 'watch',
  tasks: ['mixing', 'flushing'],
  params: [],
  eachParams: ['rig', 'litres', 'solvent', 'use'],
  questions: [
    { id: 'sludge', choices: 3 },
    { id: 'last-rinse', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const left = carriedIn?.settledSolvent ?? [];
    if (left.length === 0) return null;
    return {
      params: {},
      each: left.map(({ rig, solvent, litres }) => ({
        rig: rigName(day, rig),
        litres: tenth(litres),
        solvent,
        use: solventUse(day, rig, solvent),
      })),
      because: left.map(({ rig, solvent }) => becauseYesterday(rigName(day, rig), 'settledSolvent', solvent)),
    };
  },
};
