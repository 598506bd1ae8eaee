import { wholeUp } from '../../facts/round.ts';
import { solventNeeds } from '../../facts/solvent.ts';
import { usedCoatings } from '../../facts/used.ts';
import { becauseCoating } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** About how much dirty solvent the day leaves, and where it and the rags go. */
export const waste: CautionRule = {
  id: 'waste',
  grade: 'watch',
  tasks: ['mixing', 'flushing'],
  params: ['litres'],
  eachParams: [],
  questions: [
    { id: 'rags', choices: 3 },
    { id: 'drain', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const needs = solventNeeds(day, carriedIn);
    if (needs.length === 0) return null;
    const litres = needs.reduce((sum, { flushes, eachL }) => sum + flushes * eachL, 0);
    return {
      params: { litres: wholeUp(litres) },
      each: [],
      habit: true,
      because: usedCoatings(day).map(({ name, sheet }) =>
        becauseCoating(name, 'flushSolvent', sheet?.flushSolvent),
      ),
    };
  },
};
