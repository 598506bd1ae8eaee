import { coldestAirC } from '../../facts/expected-air.ts';
import { litresForRatio, litresForRatioDown, tenth, UNREAD, wholeUp } from '../../facts/round.ts';
import { type UsedCoating, usedTwoPacks } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { inductionMinutes } from '../../trade/induction.ts';
import { splitMix } from '../../trade/mix.ts';
import { twoPacks } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** Ratio, full kit, thinner and standing time of every two-pack today. */
export const mixing: CautionRule = {
  id: 'mixing',
  grade: 'must',
  tasks: ['mixing'],
  params: [],
  eachParams: [
    'coating',
    'ratio',
    'kit',
    'litres',
    'aL',
    'bL',
    'thinner',
    'thinnerL',
    'pct',
    'stand',
    'wait',
  ],
  questions: [
    { id: 'part-kit', choices: 3 },
    { id: 'thick-paint', choices: 3 },
  ],
  find({ day }) {
    const used = usedTwoPacks(day);
    const each = used.map((one) => row(day, one));
    return each.length > 0 ? { params: {}, each, because: twoPacks(used) } : null;
  },
};

function row(day: Day, { name, sheet, jobs }: UsedCoating): Params {
  const ratio = sheet?.mixRatio;
  const pct = Math.max(...jobs.map((job) => job.thinnerPct));
  const kit =
    ratio && sheet?.kitLitres !== undefined
      ? splitMix({ ratioA: ratio.a, ratioB: ratio.b, mixedLitres: sheet.kitLitres, thinnerPct: pct })
      : null;
  return {
    coating: name,
    ratio: ratio ? `${ratio.a} : ${ratio.b}` : 'unknown',
    kit: kit ? 'known' : 'unknown',
    litres: kit ? litresForRatio(kit.aL + kit.bL) : UNREAD,
    aL: kit ? litresForRatio(kit.aL) : UNREAD,
    bL: kit ? litresForRatio(kit.bL) : UNREAD,
    thinner: pct === 0 ? 'none' : kit ? 'litres' : 'percent',
    thinnerL: kit && pct > 0 ? litresForRatioDown(kit.thinnerL) : UNREAD,
    pct: pct > 0 ? tenth(pct) : UNREAD,
    ...standing(day, sheet),
  };
}

/** Induction at the coldest air expected. Colder than the sheet's table nobody knows how long. */
function standing(
  day: Day,
  sheet: UsedCoating['sheet'],
): { readonly stand: string; readonly wait: string | number } {
  if (!sheet) return { stand: 'unknown', wait: UNREAD };
  if (sheet.induction.length === 0) return { stand: 'none', wait: UNREAD };
  const { minutes, belowTable } = inductionMinutes(sheet.induction, coldestAirC(day));
  if (minutes === 0 && !belowTable) return { stand: 'none', wait: UNREAD };
  return { stand: belowTable ? 'longer' : 'known', wait: wholeUp(minutes) };
}
