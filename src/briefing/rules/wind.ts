import { tenthDown, tenthUp, UNREAD } from '../../facts/round.ts';
import { becauseDay, becauseSite } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Outdoors from half the site's limit on, and when nobody wrote the wind down. At the limit, and not known, it is a must; at
 * the limit it says not to spray and is never folded away.
 */
export const wind: CautionRule = {
  id: 'wind',
  grade: 'must',
  tasks: ['spraying'],
  params: ['state', 'mps', 'limit'],
  eachParams: [],
  questions: [
    { id: 'gusts', choices: 3 },
    { id: 'rough-film', choices: 3 },
    { id: 'cars', choices: 3 },
  ],
  find({ day }) {
    if (day.entry.surroundings !== 'open-air') return null;
    const { windMps } = day.entry.weather;
    const limit = tenthDown(day.policy.windMaxMps);
    // As read: a figure that is shown at the limit counts as at the limit.
    const mps = windMps === undefined ? null : tenthUp(windMps);
    if (mps !== null && mps < limit / 2) return null;
    const strong = mps !== null && mps >= limit;
    return {
      ...(mps !== null && !strong && { grade: 'watch' }),
      ...(strong && { unfolded: true }),
      params: {
        state: mps === null ? 'unknown' : strong ? 'strong' : 'fresh',
        mps: mps ?? UNREAD,
        limit,
      },
      each: [],
      because: [
        becauseDay('surroundings', day.entry.surroundings),
        becauseDay('weather.windMps', windMps),
        becauseSite('policy.windMaxMps', day.policy.windMaxMps),
      ],
    };
  },
};
