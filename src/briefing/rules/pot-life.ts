import { warmestAirC } from '../../facts/expected-air.ts';
import { flushPlanOf } from '../../facts/flush-plan.ts';
import { tenth, UNREAD, whole, wholeDown } from '../../facts/round.ts';
import { rigName, type UsedCoating, usedThatSets } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { MINUTE } from '../../model/time.ts';
import { clockTimes } from '../../trade/dose.ts';
import { potLifeMinutes } from '../../trade/pot-life.ts';
import { hoseSolAirC } from '../../trade/sun.ts';
import { twoPacks } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Today's times of all paint with a clock on every rig that sprays it, at the warmest air expected: pot life, use by (the
 * site's reserve kept back and this rig's flush still possible), and the pot life in a hose left standing in the sun. A stop
 * where it says not to mix.
 */
export const potLife: CautionRule = {
  id: 'pot-life',
  grade: 'must',
  tasks: ['spraying', 'mixing'],
  params: ['airC', 'reserve'],
  eachParams: ['coating', 'rig', 'state', 'minutes', 'useBy', 'sun', 'hot'],
  questions: [
    { id: 'thinner', choices: 3 },
    { id: 'new-on-old', choices: 3 },
  ],
  find({ day }) {
    const clocked = usedThatSets(day);
    const each = clocked.flatMap((used) =>
      [...new Set(used.jobs.map((job) => job.rig))].sort().map((rig) => row(day, used, rig)),
    );
    if (each.length === 0) return null;
    const noMix = each.some(({ state }) => state !== 'known');
    return {
      ...(noMix && { grade: 'stop' }),
      params: { airC: tenth(warmestAirC(day)), reserve: whole(day.policy.reservePct) },
      each,
      because: twoPacks(clocked),
    };
  },
};

function row(day: Day, { name, sheet }: UsedCoating, rigId: string): Params {
  const points = sheet?.potLife;
  const rig = day.rigs[rigId];
  const { sun } = day.entry.weather;
  const airC = warmestAirC(day);
  const base = { coating: name, rig: rigName(day, rigId) };
  if (!points || !rig)
    return { ...base, state: 'unknown', minutes: UNREAD, useBy: UNREAD, sun: 'no', hot: UNREAD };
  const times = clockTimes({
    points,
    history: [{ at: 0, c: airC }],
    mixedAt: 0,
    reserveFraction: day.policy.reservePct / 100,
    flushMinutes: flushPlanOf(day, rig).minutes,
  });
  // Standing in the sun it gets warmer than the site's figure for a hose that feels warm; the warmer of the two is said.
  const hotC = Math.max(airC + day.policy.warmHoseAddsC, hoseSolAirC(airC, rig.hoseColour));
  const hot = potLifeMinutes(points, hotC).minutes;
  return {
    ...base,
    state: times.tooShort ? 'short' : 'known',
    minutes: wholeDown(potLifeMinutes(points, airC).minutes),
    useBy: times.tooShort ? UNREAD : wholeDown(times.useBy / MINUTE),
    sun: sun ? 'yes' : 'no',
    hot: sun ? wholeDown(hot) : UNREAD,
  };
}
