import { tenth } from '../../facts/round.ts';
import { placeKey } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** From this air temperature the spray suit makes heat illness likely (about 80 °F, where heat-index caution begins). */
export const HOT_FROM_C = 27;

/** Suit, hood and closed places keep the heat in. Heat stroke kills. */
export const heatForPeople: CautionRule = {
  id: 'heat-for-people',
  grade: 'must',
  params: ['airC', 'place', 'sun', 'call'],
  eachParams: [],
  questions: [
    { id: 'confused', choices: 3 },
    { id: 'drinking', choices: 3 },
  ],
  find({ day }) {
    const { airC, sun } = day.entry.weather;
    if (airC < HOT_FROM_C) return null;
    return {
      params: {
        airC: tenth(airC),
        place: placeKey(day),
        sun: sun ? 'yes' : 'no',
        call: day.emergency.call,
      },
      each: [],
    };
  },
};
