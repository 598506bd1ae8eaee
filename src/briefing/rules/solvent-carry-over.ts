import { tenth } from '../../facts/round.ts';
import { rigName } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import type { RigId } from '../../model/id.ts';
import type { CautionRule } from '../rule.ts';

/** Settled solvent of the last shift: today's first rinse, where it is the right solvent for today's coating. */
export const solventCarryOver: CautionRule = {
  id: 'solvent-carry-over',
  grade: 'watch',
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
        use: useToday(day, rig, solvent),
      })),
    };
  },
};

function useToday(day: Day, rig: RigId, solvent: string): 'rinse' | 'wrong' | 'idle' | 'banned' {
  if (day.rigs[rig]?.mayHoldSettledSolvent === false) return 'banned';
  const needed = day.entry.jobs
    .filter((job) => job.rig === rig)
    .map((job) => day.coatings[job.coating]?.flushSolvent.trim().toLowerCase());
  if (needed.length === 0) return 'idle';
  return needed.every((name) => name === solvent.trim().toLowerCase()) ? 'rinse' : 'wrong';
}
