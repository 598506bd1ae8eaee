import { expectedField, warmestAirC, warmestSurfaceC } from '../../facts/expected-air.ts';
import { type QuickDrying, quickDrying } from '../../facts/quick-drying.ts';
import { tenth, UNREAD, wholeDown } from '../../facts/round.ts';
import { rigName, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { type Because, becauseCoating, becauseDay } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Paint that dries in the tip between passes: by its kind, its pot life or its recoat time at the warmest expected. */
export const washPot: CautionRule = {
  id: 'wash-pot',
  grade: 'watch',
  tasks: ['spraying', 'flushing'],
  params: [],
  eachParams: ['rig', 'coating', 'why', 'minutes', 'hours', 'solvent'],
  questions: [
    { id: 'before-in', choices: 3 },
    { id: 'plastic-tub', choices: 3 },
    { id: 'whole-gun', choices: 3 },
  ],
  find({ day }) {
    // In the sun guns and pots stand on steel that is warmer than the air.
    const c = day.entry.weather.sun ? warmestSurfaceC(day) : warmestAirC(day);
    const found = usedCoatings(day).flatMap((used) => {
      const quick = quickDrying(used, c);
      return quick ? [{ used, quick }] : [];
    });
    if (found.length === 0) return null;
    const warm = found.some(({ quick }) => quick.why === 'pot' || quick.why === 'recoat');
    return {
      params: {},
      each: found.flatMap(({ used, quick }) =>
        [...new Set(used.jobs.map(({ rig }) => rig))].sort().map((rig) => ({
          rig: rigName(day, rig),
          coating: used.name,
          why: used.sheet ? quick.why : 'no_sheet',
          minutes: quick.why === 'pot' ? wholeDown(quick.minutes) : UNREAD,
          hours: quick.why === 'recoat' ? tenth(quick.hours) : UNREAD,
          solvent: used.sheet?.flushSolvent ?? UNREAD,
        })),
      ),
      because: [...found.map(({ used, quick }) => factOf(used, quick)), ...(warm ? [warmth(day, c)] : [])],
    };
  },
};

/** Air, or the steel where that is what is as warm. */
function warmth(day: Day, c: number): Because {
  const field = warmestAirC(day) === c ? 'airC' : 'steelC';
  return becauseDay(expectedField(day, field, c), c);
}

function factOf({ name, sheet }: UsedCoating, quick: QuickDrying): Because {
  switch (quick.why) {
    case 'family':
      return becauseCoating(name, 'family', sheet?.family);
    case 'pot':
      return becauseCoating(
        name,
        'potLife.minutes',
        sheet?.potLife?.map(({ minutes }) => minutes),
      );
    case 'recoat':
      return becauseCoating(
        name,
        'recoat.minHours',
        sheet?.recoat.map(({ minHours }) => minHours),
      );
    case 'unknown':
      return becauseCoating(name, 'family', null);
  }
}
