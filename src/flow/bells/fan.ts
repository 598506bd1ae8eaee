import type { RigId } from '../../model/id.ts';
import type { Shift } from '../../model/shift.ts';
import { type Instant, MINUTE } from '../../model/time.ts';
import { rigClocks } from '../clocks.ts';
import { bell, type WantedBell } from './wanted.ts';

/** When the next test fan is due on a rig that has sprayed: so long after the first batch, or after the last fan. */
export function fanDueAt(shift: Shift, rig: RigId): Instant | null {
  const state = shift.rigs[rig];
  const from = state?.fans?.at(-1)?.at ?? state?.batches[0]?.at;
  return from === undefined ? null : from + shift.day.policy.testFanMinutes * MINUTE;
}

/** Whether somebody may pull this rig's trigger as far as Potbell knows: only then is a fan asked for. */
export function mayTestFan(shift: Shift, rig: RigId): boolean {
  const state = shift.rigs[rig];
  if (!state?.checked || shift.stop || state.tag || state.unflushed || state.flush) return false;
  return state.pausedAt === null && (state.line !== null || state.pot !== null);
}

/**
 * TF3: a test fan is asked for once each interval, of the crew: it informs and does not escalate, because the worst of a
 * worn tip is bad paint. Not past use-by, when nothing may be sprayed any more. An interval that ran out while paused,
 * stopped or tagged is asked for when that ends, and is not late.
 */
export function fanBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const state = shift.rigs[rig];
  const first = fanDueAt(shift, rig);
  if (!state || first === null || !mayTestFan(shift, rig)) return [];
  const interval = shift.day.policy.testFanMinutes * MINUTE;
  // Asked and not done: asked again an interval later, counted from the ring, so that a silence brings one ring only.
  const asked = shift.bells[`fan-due:${rig}`]?.rings.at(-1)?.at;
  const dueAt = asked !== undefined && asked >= first ? asked + interval : first;
  const until = Math.min(shift.day.endsAt, ...rigClocks(shift, rig).map(({ times }) => times.useBy));
  // Written so that an interval nobody knows (a shift stored before there was one) asks for nothing.
  if (!(dueAt < until)) return [];
  const since = [state.resumedAt, shift.stopClearedAt, state.checked?.at, (state.line ?? state.pot)?.notedAt];
  const knownAt = Math.max(dueAt, ...since.map((at) => at ?? dueAt));
  return [bell('fan-due', rig, dueAt, { rig, once: true, knownAt, until })];
}
