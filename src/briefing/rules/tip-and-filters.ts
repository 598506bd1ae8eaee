import { UNREAD } from '../../facts/round.ts';
import { coatingName, usedRigs } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** Tip and mesh the sheets name for each rig, and the check half-way through a finish coat. */
export const tipAndFilters: CautionRule = {
  id: 'tip-and-filters',
  grade: 'watch',
  params: ['finish'],
  eachParams: ['rig', 'coating', 'hasTip', 'tip', 'hasMesh', 'mesh'],
  questions: [
    { id: 'narrow-fan', choices: 3 },
    { id: 'blocked-filter', choices: 3 },
  ],
  find({ day }) {
    const finish = day.entry.jobs.some((job) => job.coat === 'finish');
    const each = usedRigs(day).flatMap(({ name, jobs }) =>
      [...new Set(jobs.map((job) => job.coating))].sort().flatMap((id) => {
        const { tip, filterMesh } = day.coatings[id] ?? {};
        if (!tip && filterMesh === undefined) return [];
        return [
          {
            rig: name,
            coating: coatingName(day, id),
            hasTip: tip ? 'yes' : 'no',
            tip: tip || UNREAD,
            hasMesh: filterMesh === undefined ? 'no' : 'yes',
            mesh: filterMesh ?? UNREAD,
          },
        ];
      }),
    );
    return finish || each.length > 0 ? { params: { finish: finish ? 'yes' : 'no' }, each } : null;
  },
};
