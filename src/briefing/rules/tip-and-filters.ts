import { UNREAD, wholeDown, wholeUp } from '../../facts/round.ts';
import { airIsShort, airNeed, tipOf } from '../../facts/spray.ts';
import { coatingName, type UsedRig, usedRigs } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import type { Job } from '../../model/day-entry.ts';
import { type Because, becauseCoating, becauseDay, becauseRig, distinct } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Tip and mesh for each rig, the interval of the test fan, the check half-way through a finish coat, and a compressor that
 * is too small for the tip: then the pressure falls and the fan lies.
 */
export const tipAndFilters: CautionRule = {
  id: 'tip-and-filters',
  grade: 'watch',
  tasks: ['spraying'],
  params: ['finish', 'minutes'],
  eachParams: ['rig', 'coating', 'hasTip', 'tip', 'hasMesh', 'mesh', 'air', 'needL', 'haveL'],
  questions: [
    { id: 'narrow-fan', choices: 3 },
    { id: 'blocked-filter', choices: 3 },
  ],
  find({ day }) {
    const finish = day.entry.jobs.some((job) => job.coat === 'finish');
    const each = usedRigs(day).flatMap((used) => rowsOf(day, used));
    if (!finish && each.length === 0) return null;
    return {
      params: { finish: finish ? 'yes' : 'no', minutes: day.policy.testFanMinutes },
      each,
      because: distinct([
        ...(finish ? [becauseDay('jobs.coat', 'finish')] : []),
        ...usedRigs(day).flatMap((used) => factsOf(day, used)),
      ]),
    };
  },
};

/** One row for each coating and tip on a rig; a second job with the same says nothing new. */
function rowsOf(day: Day, used: UsedRig): readonly Params[] {
  const need = airNeed(day, used);
  const rows = inOrder(day, used.jobs).flatMap((job): Params[] => {
    const tip = tipOf(day, job);
    const { filterMesh } = day.coatings[job.coating] ?? {};
    if (tip === null && filterMesh === undefined) return [];
    const short = airIsShort(need) && need.job === job ? need : null;
    return [
      {
        rig: used.name,
        coating: coatingName(day, job.coating),
        hasTip: tip === null ? 'no' : 'yes',
        tip: tip ?? UNREAD,
        hasMesh: filterMesh === undefined ? 'no' : 'yes',
        mesh: filterMesh ?? UNREAD,
        air: short ? 'short' : 'none',
        needL: short ? wholeUp(short.needLPerMin) : UNREAD,
        haveL: short ? wholeDown(short.haveLPerMin) : UNREAD,
      },
    ];
  });
  const seen = new Map<string, Params>();
  for (const row of rows) {
    const key = JSON.stringify([row.coating, row.tip]);
    if (!seen.has(key) || row.air === 'short') seen.set(key, row);
  }
  return [...seen.values()];
}

/** Where each tip was written; a mesh only where no tip is; a compressor only where it is too small. */
function factsOf(day: Day, used: UsedRig): readonly Because[] {
  const { name, rig } = used;
  const tips = inOrder(day, used.jobs).flatMap((job): readonly Because[] => {
    const coating = coatingName(day, job.coating);
    const { filterMesh } = day.coatings[job.coating] ?? {};
    const tip = tipOf(day, job);
    if (tip !== null)
      return [job.tip === undefined ? becauseCoating(coating, 'tip', tip) : becauseDay('jobs.tip', tip)];
    return filterMesh === undefined ? [] : [becauseCoating(coating, 'filterMesh', filterMesh)];
  });
  const short = airIsShort(airNeed(day, used));
  return [...tips, ...(short ? [becauseRig(name, 'compressorLPerMin', rig?.compressorLPerMin)] : [])];
}

/** By coating, then tip, then whether the job names it: the order in which jobs were typed is nothing to sign for. */
function inOrder(day: Day, jobs: readonly Job[]): readonly Job[] {
  const key = (job: Job) => [job.coating, tipOf(day, job) ?? '', job.tip ?? ''].join('\n');
  return [...jobs].sort((x, y) => (key(x) < key(y) ? -1 : key(x) > key(y) ? 1 : 0));
}
