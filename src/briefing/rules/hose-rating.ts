import { highestBar } from '../../facts/pressure.ts';
import { UNREAD, wholeDown, wholeUp } from '../../facts/round.ts';
import { selectKey, type UsedRig, usedRigs } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { lowestRating } from '../../trade/line.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** A pressure over the weakest rated part, or a number missing that would be needed to know. */
export const hoseRating: CautionRule = {
  id: 'hose-rating',
  grade: 'stop',
  params: ['over'],
  eachParams: ['rig', 'problem', 'part', 'bar', 'rating'],
  questions: [
    { id: 'weakest-part', choices: 3 },
    { id: 'no-stamp', choices: 3 },
  ],
  find({ day }) {
    const each = usedRigs(day).flatMap((used) => problemsOf(day, used));
    if (each.length === 0) return null;
    return { params: { over: each.some(({ problem }) => problem === 'over') ? 'yes' : 'no' }, each };
  },
};

function problemsOf(day: Day, used: UsedRig): readonly Params[] {
  const rig = used.name;
  const ratings = used.rig?.ratings ?? [];
  const reached = highestBar(day, used);
  const found: Params[] = [];
  if (reached === null)
    found.push({ rig, problem: 'pressure_unknown', part: UNREAD, bar: UNREAD, rating: UNREAD });
  if (reached !== null && ratings.length > 0) {
    const weakest = lowestRating(ratings);
    if (reached > weakest.bar)
      found.push({
        rig,
        problem: 'over',
        part: selectKey(weakest.part),
        bar: wholeUp(reached),
        rating: wholeDown(weakest.bar),
      });
  }
  for (const part of ['hose', 'gun'] as const) {
    if (ratings.some((rating) => rating.part === part)) continue;
    const bar = reached === null ? UNREAD : wholeUp(reached);
    found.push({
      rig,
      problem: reached === null ? 'both_unknown' : 'rating_unknown',
      part,
      bar,
      rating: UNREAD,
    });
  }
  return found;
}
