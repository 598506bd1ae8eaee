import { flushPlanOf } from '../../facts/flush-plan.ts';
import type { RigId } from '../../model/id.ts';
import type { Shift } from '../../model/shift.ts';
import { MINUTE } from '../../model/time.ts';
import { rigClocks } from '../clocks.ts';
import { together } from './together.ts';
import { bell, type WantedBell } from './wanted.ts';

/** Minutes without a confirmed step before a flush is chased; the first flush alone may take longer than the policy. */
export function flushPatience(shift: Shift, rig: RigId): number {
  const spec = shift.day.rigs[rig];
  const primary = spec ? flushPlanOf(shift.day, spec).primaryMinutes : 0;
  return Math.max(shift.day.policy.flushStepMinutes, primary);
}

/** BE6: a flush that has begun is chased when no step is confirmed for a while; paint past its life still rings. */
export function flushBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const flush = shift.rigs[rig]?.flush;
  if (!flush) return [];
  const answers = Object.values(flush.steps);
  const lastAt = Math.max(flush.startedAt, ...answers.map((step) => step.at));
  return [
    bell('flush-stalled', `${flush.id}:${answers.length}`, lastAt + flushPatience(shift, rig) * MINUTE, {
      rig,
    }),
    ...together(
      rigClocks(shift, rig).map(({ where, mixed, times }) => ({
        where,
        asks: 'dead',
        bell: bell('dead', `${rig}:${where}:${mixed.batch}`, times.deadAt, { rig, knownAt: mixed.notedAt }),
      })),
    ),
  ];
}
