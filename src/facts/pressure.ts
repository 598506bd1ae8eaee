import { stallBar } from '../trade/line.ts';
import type { UsedRig } from './used.ts';

/**
 * The most fluid pressure today's jobs can put into this rig's line, bar; null when a number for it is missing, which
 * every rule treats as the hazardous case. An air-driven pump without a planned pressure may get its maximum.
 */
export function highestBar({ rig, jobs }: UsedRig): number | null {
  if (!rig) return null;
  const each = jobs.map((job) => {
    if (rig.drive !== 'air') return job.fluidBar ?? rig.maxFluidBar ?? null;
    const air = job.airBar ?? rig.maxAirBar;
    return rig.ratio === undefined || air === undefined ? null : stallBar(rig.ratio, air);
  });
  return each.some((bar) => bar === null) ? null : Math.max(...each.map(Number));
}
