import type { CarryOver } from '../model/day.ts';
import type { RigId } from '../model/id.ts';
import type { Concern, RigState, Shift } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';

/**
 * DE7: what the last shift left becomes part of this one: when the day is posted, and again when the briefing goes out,
 * because the last shift may have gone on in between. What has been dealt with in this shift is not put on again.
 */
export function withCarried(shift: Shift, carriedIn: CarryOver, at: Instant): Shift {
  const rigs = Object.entries(shift.rigs).map(
    ([id, state]) => [id, carriedRig(id, state, carriedIn, at)] as const,
  );
  const cleared = carriedIn.stop !== null && (shift.stopClearedAt ?? 0) >= carriedIn.stop.at;
  const ownStop = shift.stop !== null && shift.stop.at !== shift.carriedIn?.stop?.at ? shift.stop : null;
  return {
    ...shift,
    carriedIn,
    rigs: Object.fromEntries(rigs),
    stop: ownStop ?? (cleared ? null : carriedIn.stop),
    concerns: carriedConcerns(shift, carriedIn, at),
  };
}

/** A rig keeps its tag overnight, and one whose line nobody flushed is tagged: what set in it may burst under pressure. */
function carriedRig(id: RigId, state: RigState, carriedIn: CarryOver, at: Instant): RigState {
  if (state.carriedSettled) return state;
  const unflushed = carriedIn.unflushed.find(({ rig }) => rig === id) ?? null;
  const left = carriedIn.tags.find(({ rig }) => rig === id);
  const tag: RigState['tag'] = left
    ? { at: left.since, cause: left.cause, text: left.text }
    : unflushed && { at, cause: 'not-flushed', text: '' };
  // A tag put on in this shift is this shift's own.
  const own = state.tag !== null && !state.carriedTag;
  return {
    ...state,
    unflushed: unflushed && { coating: unflushed.coating, mixedAt: unflushed.mixedAt },
    tag: own ? state.tag : tag,
    carriedTag: !own && tag !== null,
  };
}

/** A concern nobody answered holds today as well, until the foreman answers it. */
function carriedConcerns(shift: Shift, carriedIn: CarryOver, at: Instant): readonly Concern[] {
  const known = (text: string, person: string) =>
    shift.concerns.some((one) => one.text === text && one.by === person);
  const fresh = carriedIn.concerns.filter(({ text, person }) => !known(text, person));
  const from = shift.concerns.length;
  return [
    ...shift.concerns,
    ...fresh.map(({ person, text }, index) => ({
      id: `concern-${from + index + 1}`,
      at,
      by: person,
      text,
      resolved: null,
    })),
  ];
}
