import type { RigId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Rig } from '../model/rig.ts';
import type { RigState, Shift } from '../model/shift.ts';
import { type Refusal, refuse } from './decision.ts';

/** A rig of this shift with its state, or the refusal that lists the rigs there are. */
export function rigOf(shift: Shift, id: RigId): { readonly rig: Rig; readonly state: RigState } | Refusal {
  const rig = own(shift.day.rigs, id);
  const state = own(shift.rigs, id);
  if (rig && state) return { rig, state };
  return refuse('refusal.unknown-rig', { rig: id, known: Object.keys(shift.day.rigs).join(', ') });
}

export function withRig(shift: Shift, id: RigId, change: (state: RigState) => RigState): Shift {
  const state = shift.rigs[id];
  if (!state) throw new Error(`journal event for rig "${id}", which shift ${shift.id} does not have`);
  return { ...shift, rigs: { ...shift.rigs, [id]: change(state) } };
}

export function rigName(shift: Shift, id: RigId): string {
  return shift.day.rigs[id]?.name ?? id;
}
