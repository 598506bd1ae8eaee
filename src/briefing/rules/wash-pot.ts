import { expectedAir } from '../../facts/expected-air.ts';
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
    const c = warmest(day);
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
          why: quick.why,
          minutes: quick.why === 'pot' ? wholeDown(quick.minutes) : UNREAD,
          hours: quick.why === 'recoat' ? tenth(quick.hours) : UNREAD,
          solvent: used.sheet?.flushSolvent ?? UNREAD,
        })),
      ),
      because: [
        ...found.map(({ used, quick }) => factOf(used, quick)),
        ...(warm ? [becauseDay('weather.airC', day.entry.weather.airC)] : []),
      ],
    };
  },
};

/** Air, or steel in the sun, whichever is warmer: guns and pots stand on it. */
function warmest(day: Day): number {
  const { sun, steelC } = day.entry.weather;
  const air = Math.max(...expectedAir(day).map(({ airC }) => airC));
  return sun && steelC !== undefined ? Math.max(air, steelC) : air;
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
