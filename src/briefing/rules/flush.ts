import { flushPlanOf } from '../../facts/flush-plan.ts';
import { tenthUp, UNREAD, wholeUp } from '../../facts/round.ts';
import { settledUse } from '../../facts/settled-solvent.ts';
import { solventNeeds } from '../../facts/solvent.ts';
import { coatingName, type UsedRig, usedRigs } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { clockTimeOn, MINUTE } from '../../model/time.ts';
import { rigsSpray } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule, DayFacts } from '../rule.ts';

/**
 * Solvent, minutes and the latest start before the end of the shift for each rig and each of its flush solvents, and
 * what to bring for the day.
 */
export const flush: CautionRule = {
  id: 'flush',
  grade: 'must',
  tasks: ['flushing'],
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
    'cleanL',
    'settledL',
    'flushes',
  ],
  questions: [
    { id: 'why-two', choices: 3 },
    { id: 'tip-off', choices: 3 },
  ],
  find(facts) {
    const { day, carriedIn } = facts;
    const rows = usedRigs(day).flatMap((used) => flushRows(facts, used));
    if (rows.length === 0) return null;
    const bring = solventNeeds(day, carriedIn).map(
      ({ name, solvent, flushes, cleanL, settledL }): Params => ({
        ...unread,
        rig: name,
        state: 'bring',
        solvent,
        settled: settledL > 0 ? 'rinse' : 'none',
        cleanL,
        settledL: settledL > 0 ? settledL : UNREAD,
        flushes,
      }),
    );
    const rinsed = rows.filter((row) => row.settled === 'rinse').length;
    const settled = rinsed === 0 ? 'none' : rinsed === rows.length ? 'all' : 'some';
    return { params: { settled }, each: [...rows, ...bring], because: [rigsSpray(day)] };
  },
};

const unread = {
  coating: UNREAD,
  primaryL: UNREAD,
  secondaryL: UNREAD,
  minutes: UNREAD,
  startBy: UNREAD,
  cleanL: UNREAD,
  settledL: UNREAD,
  flushes: UNREAD,
};

function flushRows({ day, carriedIn }: DayFacts, { id, name, rig, jobs }: UsedRig): readonly Params[] {
  const coatings = [...new Set(jobs.map((job) => job.coating))].sort();
  const plan = rig ? flushPlanOf(day, rig) : null;
  const rinse = plan !== null && settledUse(day, carriedIn, id) === 'rinse';
  return coatings.map((coating) => {
    const shared = {
      ...unread,
      rig: name,
      coating: coatingName(day, coating),
      solvent: day.coatings[coating]?.flushSolvent ?? UNREAD,
      settled: rinse ? 'rinse' : 'none',
    };
    if (!plan) return { ...shared, state: 'unknown' };
    const minutes = wholeUp(plan.minutes);
    return {
      ...shared,
      state: 'known',
      primaryL: tenthUp(plan.primaryL),
      secondaryL: tenthUp(plan.secondaryL),
      minutes,
      startBy: latestStart(day, minutes),
    };
  });
}

function latestStart(day: Day, minutes: number): string {
  return clockTimeOn(day.endsAt - minutes * MINUTE, day.site.timeZone, day.entry.date);
}
