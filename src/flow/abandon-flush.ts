import { beforeRelief, flushSteps } from '../model/checks.ts';
import type { Flush, Mixed } from '../model/shift.ts';
import { clockTime } from '../model/time.ts';
import { rigClocks } from './clocks.ts';
import { type Apply, accept, type Decide, foremen, namesOf, personOf, refuse } from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';
import { standBegun } from './standing.ts';

/** Whether nothing but locking the trigger and the power has been confirmed of this flush. */
export function mayAbandon(flush: Flush): boolean {
  const opened = flushSteps.filter((step) => !beforeRelief.includes(step));
  return flush.finishedAt === null && opened.every((step) => flush.steps[step] === undefined);
}

/**
 * FL6: a flush begun on the wrong rig is given up by who began it or the foreman, with a reason, until the pressure is
 * relieved. From then on it goes to its end: half a flush sets too. Paint past its use-by has to come out anyway.
 */
export const decideAbandonFlush: Decide<'abandon-flush'> = (shift, { rig, flush, reason }, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, rig);
  if ('refused' in found) return found;
  const { name } = found.rig;
  const running = found.state.flush;
  if (!running || running.id !== flush) return refuse('refusal.old-flush', { rig: name });
  if (running.by !== who.person.id && !who.person.roles.includes('foreman'))
    return refuse('refusal.abandon-whose', {
      rig: name,
      people: namesOf(shift, [...new Set([running.by, ...foremen(shift)])]),
    });
  if (!mayAbandon(running)) return refuse('refusal.abandon-relieved', { rig: name });
  const past = rigClocks(shift, rig).find(({ times }) => times.useBy <= context.now);
  if (past) {
    const useBy = clockTime(past.times.useBy, shift.day.site.timeZone);
    return refuse('refusal.abandon-past', { rig: name, useBy });
  }
  return accept({ type: 'flush-abandoned', rig, flush, by: who.person.id, reason });
};

/**
 * The clock ran on all the time. The paint stood still behind a locked trigger, so the rig counts as paused since the
 * flush began; bells that came due meanwhile ring now.
 */
export const applyFlushAbandoned: Apply<'flush-abandoned'> = (shift, { rig, flush, by, reason }, { at }) =>
  withRig(shift, rig, (state) => {
    const startedAt = state.flush?.startedAt ?? at;
    const told = (mixed: Mixed | null) => mixed && { ...mixed, notedAt: at };
    return {
      ...state,
      pot: told(state.pot),
      line: standBegun(shift, shift.day.rigs[rig], told(state.line), startedAt),
      pausedAt: state.pot || state.line ? startedAt : null,
      flush: null,
      abandoned: [...(state.abandoned ?? []), { id: flush, startedAt, at, by, reason }],
    };
  });
