import { tenth } from '../../facts/round.ts';
import { becauseDay } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** From here down hands lose feeling and most two-packs cure slowly or not at all. */
export const COLD_FROM_C = 5;

/** Cold people and cold paint. Whether the sheet allows the temperature is the business of `weather`. */
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
    const { airC } = day.entry.weather;
    if (airC > COLD_FROM_C) return null;
    return { params: { airC: tenth(airC) }, each: [], because: [becauseDay('weather.airC', airC)] };
  },
};
