import type { RigId } from '../../model/id.ts';
import type { Shift } from '../../model/shift.ts';
import { MINUTE } from '../../model/time.ts';
import { inductionMinutes } from '../../trade/induction.ts';
import { conflictsOf, type RigClock, rigClocks } from '../clocks.ts';
import { fanBells } from './fan.ts';
import { flushBells } from './flush.ts';
import { type PlaceBell, together } from './together.ts';
import { bell, type WantedBell } from './wanted.ts';

/** Every bell of one rig: its clocks, breaks and end, induction; once a flush runs, the flush. */
export function rigBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const state = shift.rigs[rig];
  if (!state) return [];
  if (state.flush) return flushBells(shift, rig);
  const clocks = rigClocks(shift, rig);
  return [
    ...together(clocks.flatMap((clock) => clockBells(shift, rig, clock))),
    ...together(clocks.flatMap((clock) => conflictBells(shift, rig, clock))),
    ...inductionBells(shift, rig),
    ...fanBells(shift, rig),
  ];
}

/** BE4: the bells of one clock, named by the batch that governs it, so that a fresh pot brings bells of its own. */
function clockBells(shift: Shift, rig: RigId, clock: RigClock): readonly PlaceBell[] {
  const { useBy, startFlushBy, deadAt } = clock.times;
  const key = `${rig}:${clock.where}:${clock.mixed.batch}`;
  const soon = Math.max(clock.mixed.mixedAt, useBy - shift.day.policy.warnBeforeMinutes * MINUTE);
  const knownAt = clock.mixed.notedAt;
  const bells = [bell('use-by-soon', key, soon, { rig, once: true, knownAt, until: useBy })];
  // When the flush takes all the time there is, "use by" and "start the flush" are one moment and ring once.
  if (startFlushBy - useBy >= MINUTE)
    bells.push(bell('use-by', key, useBy, { rig, until: startFlushBy, knownAt }));
  bells.push(
    bell('start-flush', key, startFlushBy, { rig, until: deadAt, knownAt }),
    bell('dead', key, deadAt, { rig, knownAt }),
  );
  return bells.map((one) => ({ where: clock.where, asks: one.kind, bell: one }));
}

/** BE5: paint that will not last over the break or has to be out by the end is said before, with the time to start. */
function conflictBells(shift: Shift, rig: RigId, clock: RigClock): readonly PlaceBell[] {
  const warn = shift.day.policy.warnBeforeMinutes * MINUTE;
  const { batch, mixedAt, notedAt: knownAt } = clock.mixed;
  return conflictsOf(shift.day, rig, clock, mixedAt).map((conflict) => {
    const dueAt = Math.max(mixedAt, conflict.flushBy - warn);
    const which = conflict.kind === 'break' ? `${batch}:${conflict.index}` : batch;
    const asks = conflict.kind === 'break' ? `break:${conflict.index}` : 'end';
    const kind = `before-${conflict.kind}` as const;
    const one = bell(kind, `${rig}:${which}`, dueAt, { rig, knownAt, until: clock.times.useBy });
    return { where: clock.where, asks, bell: one };
  });
}

function inductionBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const state = shift.rigs[rig];
  const batch = state?.batches.at(-1);
  const table = batch && shift.day.coatings[batch.coating]?.induction;
  if (!batch || !table || table.length === 0 || !state?.pot) return [];
  const { minutes } = inductionMinutes(table, batch.paintC);
  return [
    bell('induction-over', batch.id, batch.at + minutes * MINUTE, {
      rig,
      once: true,
      // A batch that is the last again, because one logged after it was taken back, is so from then on.
      knownAt: Math.max(batch.loggedAt, state.voided?.at(-1)?.at ?? 0),
    }),
  ];
}
