import { tenth, UNREAD, wholeUp } from '../../facts/round.ts';
import { bareSteelTime } from '../../facts/surface-time.ts';
import type { Day } from '../../model/day.ts';
import type { Job } from '../../model/day-entry.ts';
import { clockTimeOn } from '../../model/time.ts';
import { becauseDay, becauseSite } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * By when bare steel has to have its first coat. A primer goes on bare steel, so one without its time is told; a repair
 * may be over old paint and is told only with its time.
 */
export const surfaceTime: CautionRule = {
  id: 'surface-time',
  grade: 'must',
  tasks: ['spraying', 'mixing'],
  params: ['hours'],
  eachParams: ['area', 'state', 'by', 'prepared', 'rh'],
  questions: [
    { id: 'pump-failed', choices: 3 },
    { id: 'brown-patch', choices: 3 },
    { id: 'left-overnight', choices: 3 },
  ],
  find({ day }) {
    const jobs = day.entry.jobs.filter(
      ({ coat, preparedAt }) => coat === 'primer' || (coat === 'repair' && preparedAt !== undefined),
    );
    if (jobs.length === 0) return null;
    const rows = jobs.map((job) => rowOf(day, job)).sort((x, y) => (x.order < y.order ? -1 : 1));
    const damp = rows.some(({ row }) => row.state === 'damp' || row.rh !== UNREAD);
    const written = [...new Set(rows.map(({ preparedAt }) => preparedAt))];
    return {
      params: { hours: tenth(day.policy.surfaceHours) },
      each: rows.map(({ row }) => row),
      because: [
        ...written.map((preparedAt) => becauseDay('jobs.preparedAt', preparedAt)),
        ...(damp ? [becauseDay('weather.rhPct', day.entry.weather.rhPct)] : []),
        becauseSite('policy.surfaceHours', day.policy.surfaceHours),
      ],
    };
  },
};

/** Run out first, then unknown, then by the time that is left. */
function rowOf(day: Day, job: Job) {
  const said = (at: number) => clockTimeOn(at, day.site.timeZone, day.entry.date);
  const time = bareSteelTime(day, job);
  const base = { area: job.area, by: UNREAD, prepared: UNREAD, rh: UNREAD };
  const kept = (order: string, row: Params) => ({
    row,
    preparedAt: job.preparedAt,
    order: `${order} ${job.area}`,
  });
  if (time.kind !== 'known')
    return kept('1', {
      ...base,
      state: time.kind,
      ...(time.kind === 'after' && { prepared: job.preparedAt ?? UNREAD }),
    });
  const late = time.coatedBy <= day.startsAt;
  return kept(late ? '0' : `2 ${String(time.coatedBy).padStart(15, '0')}`, {
    ...base,
    state: late ? 'late' : time.dampPct === null ? 'dry' : 'damp',
    by: said(time.coatedBy),
    prepared: said(time.preparedAt),
    rh: time.dampPct === null || late ? UNREAD : wholeUp(time.dampPct),
  });
}
