import { highestBar } from '../../facts/pressure.ts';
import { tenth, UNREAD, wholeDown, wholeUp } from '../../facts/round.ts';
import { selectKey, type UsedRig, usedRigs } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { lowestRating } from '../../trade/line.ts';
import { type Because, becauseDay, becauseRig, distinct } from '../because.ts';
import { pressureMissing, rigsSpray } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Every hose, every day. A stop where the pressure is over the weakest rated part, or a number is missing that would be
 * needed to know.
 */
export const hoseAndFittings: CautionRule = {
  id: 'hose-and-fittings',
  grade: 'stop',
  tasks: ['spraying', 'mixing', 'flushing'],
  params: ['over'],
  eachParams: ['rig', 'problem', 'part', 'bar', 'rating', 'm', 'pieces', 'sun'],
  questions: [
    { id: 'weakest-part', choices: 3 },
    { id: 'drip', choices: 3 },
    { id: 'no-stamp', choices: 3 },
    { id: 'bulge', choices: 3 },
  ],
  find({ day }) {
    const rigs = usedRigs(day);
    if (rigs.length === 0) return null;
    const wrong = rigs.map((used) => ({ used, problems: problemsOf(day, used) }));
    const problems = wrong.flatMap((one) => one.problems);
    const fine = problems.length === 0;
    const over = problems.some(({ problem }) => problem === 'over');
    return {
      ...(fine ? { grade: 'must' as const } : {}),
      params: { over: over ? 'yes' : fine ? 'fine' : 'no' },
      each: [...problems, ...rigs.flatMap((used) => lengthOf(day, used))],
      ...(fine ? { habit: true as const } : {}),
      because: fine
        ? [rigsSpray(day), ...(day.entry.weather.sun ? [becauseDay('weather.sun', true)] : [])]
        : distinct(wrong.filter((one) => one.problems.length > 0).flatMap(({ used }) => factsOf(day, used))),
    };
  },
};

const unread = { part: UNREAD, bar: UNREAD, rating: UNREAD, m: UNREAD, pieces: UNREAD, sun: 'no' };

function problemsOf(day: Day, used: UsedRig): readonly Params[] {
  const rig = used.name;
  const ratings = used.rig?.ratings ?? [];
  const reached = highestBar(day, used);
  const found: Params[] = [];
  if (reached === null) found.push({ ...unread, rig, problem: 'pressure_unknown' });
  if (reached !== null && ratings.length > 0) {
    const weakest = lowestRating(ratings);
    if (reached > weakest.bar)
      found.push({
        ...unread,
        rig,
        problem: 'over',
        part: selectKey(weakest.part),
        bar: wholeUp(reached),
        rating: wholeDown(weakest.bar),
      });
  }
  for (const part of unrated(used)) {
    const bar = reached === null ? UNREAD : wholeUp(reached);
    found.push({
      ...unread,
      rig,
      problem: reached === null ? 'both_unknown' : 'rating_unknown',
      part,
      bar,
    });
  }
  return found;
}

/** Parts that a line cannot do without, and whose rating nobody has written down. */
function unrated({ rig }: UsedRig): readonly ('hose' | 'gun')[] {
  return (['hose', 'gun'] as const).filter((part) => !rig?.ratings.some((rating) => rating.part === part));
}

/** How much hose there is to look at, and whether the sun is on it. */
function lengthOf(day: Day, { name, rig }: UsedRig): readonly Params[] {
  if (!rig) return [];
  return [
    {
      ...unread,
      rig: name,
      problem: 'none',
      m: tenth(rig.hoses.reduce((sum, { lengthM }) => sum + lengthM, 0)),
      pieces: rig.hoses.length,
      sun: day.entry.weather.sun ? rig.hoseColour : 'no',
    },
  ];
}

/** A pressure that cannot be known is blamed on the figure that is missing, not on those that are there. */
function factsOf(day: Day, used: UsedRig): readonly Because[] {
  const { name, rig, jobs } = used;
  const ratings = becauseRig(
    name,
    'ratings',
    rig?.ratings.map(({ part, bar }) => `${part} ${bar}`),
  );
  if (highestBar(day, used) === null)
    return [...(unrated(used).length > 0 ? [ratings] : []), pressureMissing(used)];
  const planned = jobs.flatMap(({ airBar, fluidBar }) => airBar ?? fluidBar ?? []);
  return [
    ratings,
    becauseDay(
      rig?.drive === 'air' ? 'jobs.airBar' : 'jobs.fluidBar',
      [...new Set(planned)].sort((x, y) => x - y),
    ),
  ];
}
