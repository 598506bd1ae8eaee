import { flushPlanOf } from '../../facts/flush-plan.ts';
import { tenthUp, UNREAD, wholeUp } from '../../facts/round.ts';
import { settledUse } from '../../facts/settled-solvent.ts';
import { coatingName, usedRigs } from '../../facts/used.ts';
import { clockTimeOn, MINUTE } from '../../model/time.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** Solvent, minutes and the latest start before the end of the shift for each rig and each of its flush solvents. */
export const flush: CautionRule = {
  id: 'flush',
  grade: 'must',
  params: ['settled'],
  eachParams: [
    'rig',
    'coating',
    'state',
    'solvent',
    'settled',
    'primaryL',
    'secondaryL',
    'minutes',
    'startBy',
  ],
  questions: [
    { id: 'why-two', choices: 3 },
    { id: 'tip-off', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const each = usedRigs(day).flatMap(({ id: rigId, name, rig, jobs }): Params[] => {
      const coatings = [...new Set(jobs.map((job) => job.coating))].sort();
      const plan = rig ? flushPlanOf(day, rig) : null;
      const rinse = plan !== null && settledUse(day, carriedIn, rigId) === 'rinse';
      return coatings.map((id) => {
        const minutes = plan ? wholeUp(plan.minutes) : null;
        return {
          rig: name,
          coating: coatingName(day, id),
          state: plan ? 'known' : 'unknown',
          solvent: day.coatings[id]?.flushSolvent ?? UNREAD,
          settled: rinse ? 'rinse' : 'none',
          primaryL: plan ? tenthUp(plan.primaryL) : UNREAD,
          secondaryL: plan ? tenthUp(plan.secondaryL) : UNREAD,
          minutes: minutes ?? UNREAD,
          startBy:
            minutes === null
              ? UNREAD
              : clockTimeOn(day.endsAt - minutes * MINUTE, day.site.timeZone, day.entry.date),
        };
      });
    });
    if (each.length === 0) return null;
    const rinsed = each.filter((row) => row.settled === 'rinse').length;
    return { params: { settled: rinsed === 0 ? 'none' : rinsed === each.length ? 'all' : 'some' }, each };
  },
};
