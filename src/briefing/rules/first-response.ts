import { personName } from '../../facts/used.ts';
import { becauseSite } from '../because.ts';
import { rigsSpray } from '../causes.ts';
import type { CautionRule } from '../rule.ts';

/**
 * What to do when somebody is hit, with this site's numbers. Every rig here is airless, so it is part of every briefing. No
 * stop, because it keeps nobody from being hit: number and hospital stand under every briefing besides.
 */
export const firstResponse: CautionRule = {
  id: 'first-response',
  grade: 'must',
  tasks: 'everybody',
  params: ['call', 'address', 'hospital', 'firstAider', 'aider'],
  eachParams: [],
  questions: [
    { id: 'what-to-say', choices: 3 },
    { id: 'no-pain', choices: 3 },
  ],
  find({ day }) {
    const { call, address, hospital, firstAider } = day.emergency;
    const here = day.crew.includes(firstAider);
    return {
      params: {
        call,
        address,
        hospital,
        firstAider: personName(day, firstAider),
        aider: here ? 'here' : 'away',
      },
      each: [],
      // Somebody has to stand in for a first aider who is not here: that is no habit.
      ...(here && { habit: true }),
      because: [rigsSpray(day), ...(here ? [] : [becauseSite('site.emergency.firstAider', firstAider)])],
    };
  },
};
