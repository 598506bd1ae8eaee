import type { BatchId, RigId } from '../model/id.ts';
import type { Mixed, RigState, Shift, VoidedBatch } from '../model/shift.ts';
import { clockTime } from '../model/time.ts';
import { type Apply, accept, type Decide, foremanOf, nameOf, type Refusal, refuse } from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';

/**
 * BA8: a batch logged twice, on the wrong rig, or never mixed. Taking it back takes a clock away, so it is the foreman's,
 * whoever logged it, with no short time in which it would be anybody's: a slip is often found only when a bell rings for
 * paint that is not there. Only the last batch, and only while what is in pot and line without it is known.
 */
export const decideVoidBatch: Decide<'void-batch'> = (shift, { rig, batch, reason }, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  return (
    notVoidable(shift, rig, batch) ??
    accept({ type: 'batch-voided', rig, batch, by: foreman.person.id, reason })
  );
};

/** Why this batch cannot be taken back now; null when it can. Who asks is not looked at. */
export function notVoidable(shift: Shift, rigId: RigId, batch: BatchId): Refusal | null {
  const found = rigOf(shift, rigId);
  if ('refused' in found) return found;
  const { state } = found;
  const rig = found.rig.name;
  const back = state.voided?.find((one) => one.batch.id === batch);
  if (back)
    return refuse('refusal.already-voided', {
      batch,
      person: nameOf(shift, back.by),
      time: clockTime(back.at, shift.day.site.timeZone),
    });
  if (state.batches.at(-1)?.id !== batch) return refuse('refusal.void-not-last', { rig, batch });
  if (state.beforeLast?.batch !== batch) return refuse('refusal.void-too-late', { rig, batch });
  if (state.flush) return refuse('refusal.void-flushing', { rig });
  return null;
}

/** The batch that can be taken back on this rig now, or null. */
export function voidableBatch(state: RigState): BatchId | null {
  const last = state.batches.at(-1)?.id ?? null;
  return last !== null && state.flush === null && state.beforeLast?.batch === last ? last : null;
}

/** BA8: pot, line and pause are as if the batch had never been logged. Older paint is told of now: its bells are due. */
export const applyBatchVoided: Apply<'batch-voided'> = (shift, { rig, batch, by, reason }, { at }) =>
  withoutBatch(shift, rig, batch, { at, by, reason });

/** The shift with its last batch on a rig taken back. */
export function withoutBatch(
  shift: Shift,
  rig: RigId,
  batch: BatchId,
  back: Omit<VoidedBatch, 'batch'>,
): Shift {
  return withRig(shift, rig, (state) => {
    const taken = state.batches.find(({ id }) => id === batch);
    const kept = state.beforeLast;
    if (!taken || !kept) throw new Error(`journal takes back batch "${batch}", which cannot be taken back`);
    const told = (mixed: Mixed | null) => mixed && { ...mixed, notedAt: back.at };
    return {
      ...state,
      batches: state.batches.filter(({ id }) => id !== batch),
      voided: [...(state.voided ?? []), { ...back, batch: taken }],
      pot: told(kept.pot),
      line: told(kept.line),
      renewLitres: kept.renewLitres,
      pausedAt: kept.pausedAt,
      beforeLast: null,
    };
  });
}
