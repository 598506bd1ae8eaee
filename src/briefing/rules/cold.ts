import { coldestAirC, expectedField } from '../../facts/expected-air.ts';
import { tenth } from '../../facts/round.ts';
import { becauseDay } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** From here down hands lose feeling and most two-packs cure slowly or not at all. */
const COLD_FROM_C = 5;

/** Cold people and cold paint, by the coldest air expected. Whether the sheet allows the temperature is the business of `weather`. */
export const cold: CautionRule = {
  id: 'cold',
  grade: 'watch',
  tasks: 'everybody',
  params: ['airC'],
  eachParams: [],
  questions: [
    { id: 'warm-a-tin', choices: 3 },
    { id: 'thick-in-the-cold', choices: 3 },
  ],
  find({ day }) {
    const airC = coldestAirC(day);
    if (airC > COLD_FROM_C) return null;
    return {
      params: { airC: tenth(airC) },
      each: [],
      because: [becauseDay(expectedField(day, 'airC', airC), airC)],
    };
  },
};
