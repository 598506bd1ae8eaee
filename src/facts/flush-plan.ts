import type { Day } from '../model/day.ts';
import type { Rig } from '../model/rig.ts';
import { type FlushPlan, flushPlan } from '../trade/flush.ts';

/** Solvent and minutes for this rig by the site's policy: what the briefing says, the clocks keep free and the bells ring by. */
export function flushPlanOf(day: Day, rig: Rig): FlushPlan {
  const { policy } = day;
  return flushPlan({
    hoses: rig.hoses,
    pumpAndFilterL: rig.pumpAndFilterLitres,
    drainLineL: rig.drainLineLitres,
    lineVolumesPrimary: policy.lineVolumesPrimary,
    lineVolumesSecondary: policy.lineVolumesSecondary,
    litresPerCycle: rig.litresPerCycle,
    cyclesPerMinute: rig.flushCyclesPerMinute,
    fixedMinutes: policy.flushFixedMinutes,
  });
}
