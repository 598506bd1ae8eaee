import { expectedField } from '../../facts/expected-air.ts';
import { tenth, UNREAD, wholeUp } from '../../facts/round.ts';
import { bareSteelTime, type Damp } from '../../facts/surface-time.ts';
import type { Day } from '../../model/day.ts';
import type { Job } from '../../model/day-entry.ts';
import { clockTimeOn } from '../../model/time.ts';
import { type Because, becauseDay, becauseSite, distinct } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * By when bare steel has to have its first coat. A primer goes on bare steel, so one without its time is told; any other
 * coat may be over old paint and is told only with its time. Run out, it says not to coat and is never folded away.
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
      ({ coat, preparedAt }) => coat === 'primer' || preparedAt !== undefined,
    );
    if (jobs.length === 0) return null;
    const rows = jobs.map((job) => rowOf(day, job)).sort((x, y) => (x.order < y.order ? -1 : 1));
    const written = [...new Set(rows.map(({ preparedAt }) => preparedAt))];
    return {
      ...(rows.some(({ row }) => row.state === 'late' || row.state === 'unknown') && { unfolded: true }),
      params: { hours: tenth(day.policy.surfaceHours) },
      each: rows.map(({ row }) => row),
      because: distinct([
        ...written.map((preparedAt) => becauseDay('jobs.preparedAt', preparedAt)),
        ...rows.flatMap(({ damp }) => dampFrom(day, damp)),
        becauseSite('policy.surfaceHours', day.policy.surfaceHours),
      ]),
    };
  },
};

/** Run out first, then unknown, then by the time that is left. */
function rowOf(day: Day, job: Job) {
  const said = (at: number) => clockTimeOn(at, day.site.timeZone, day.entry.date);
  const time = bareSteelTime(day, job);
  const base = { area: job.area, by: UNREAD, prepared: UNREAD, rh: UNREAD };
  const damp = time.kind === 'known' ? time.damp : null;
  const kept = (order: string, row: Params) => ({
    row,
    damp,
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
    state: late ? 'late' : damp === null ? 'dry' : damp === 'night' ? 'night' : 'damp',
    by: said(time.coatedBy),
    prepared: said(time.preparedAt),
    rh: damp === null || damp === 'night' || late ? UNREAD : wholeUp(damp.pct),
  });
}

/** The humidity that halves the time; that of a night nobody wrote down is not given. */
function dampFrom(day: Day, damp: Damp | 'night' | null): readonly Because[] {
  if (damp === null) return [];
  if (damp === 'night') return [becauseDay('forecast.rhPct', null)];
  return [becauseDay(expectedField(day, 'rhPct', damp.airPct), damp.airPct)];
}
