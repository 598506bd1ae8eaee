import { tipSizeOf } from '../facts/spray.ts';
import type { Day } from '../model/day.ts';
import type { RigState } from '../model/shift.ts';
import type { TestFan } from '../model/test-fan.ts';
import { type FanWear, fanWear } from '../trade/fan.ts';
import { type Apply, accept, type Decide, personOf, refuse } from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';

/** TF1: a test fan is noted with its tip while there is paint in the rig and nothing stands against pulling the trigger. */
export const decideTestFan: Decide<'test-fan'> = (shift, { rig: id, widthMm, tip }, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, id);
  if ('refused' in found) return found;
  const { rig, state } = found;
  if (shift.stop) return refuse('refusal.fan-stopped');
  if (state.tag) return refuse('refusal.fan-tagged', { rig: rig.name });
  if (state.flush) return refuse('refusal.flush-running', { rig: rig.name });
  if (!state.line && !state.pot) return refuse('refusal.no-mixed-paint', { rig: rig.name });
  const codeMm = tipSizeOf(tip)?.fanMm ?? null;
  return accept({ type: 'fan-tested', rig: id, by: who.person.id, tip, widthMm, codeMm });
};

export const applyFanTested: Apply<'fan-tested'> = (shift, { rig, by, tip, widthMm }, { at }) =>
  withRig(shift, rig, (state) => ({ ...state, fans: [...(state.fans ?? []), { at, by, tip, widthMm }] }));

export interface FanState extends FanWear {
  readonly last: TestFan;
  readonly codeMm: number | null;
  /** The first fan noted today with the same tip; null when it is this one. */
  readonly first: TestFan | null;
}

/** TF2: the last fan of a rig, held against the tip's code and the fans noted before with this tip. Null before the first. */
export function fanState(day: Day, state: RigState): FanState | null {
  const fans = state.fans ?? [];
  const last = fans.at(-1);
  if (!last) return null;
  const before = fans.slice(0, -1).filter(({ tip }) => tip === last.tip);
  const codeMm = tipSizeOf(last.tip)?.fanMm ?? null;
  const wear = fanWear({
    widthMm: last.widthMm,
    codeMm,
    before: before.map(({ widthMm }) => widthMm),
    wornPct: day.policy.fanWornPct,
  });
  return { ...wear, last, codeMm, first: before[0] ?? null };
}
