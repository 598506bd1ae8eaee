import { personName } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** What to do when somebody is hit, with this site's numbers. Every rig here is airless, so it is part of every briefing. */
export const firstResponse: CautionRule = {
  id: 'first-response',
  grade: 'stop',
  params: ['call', 'address', 'hospital', 'firstAider', 'aider'],
  eachParams: [],
  questions: [
    { id: 'what-to-say', choices: 3 },
    { id: 'no-pain', choices: 3 },
  ],
  find({ day }) {
    const { call, address, hospital, firstAider } = day.emergency;
    return {
      params: {
        call,
        address,
        hospital,
        firstAider: personName(day, firstAider),
        aider: day.crew.includes(firstAider) ? 'here' : 'away',
      },
      each: [],
    };
  },
};
