import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import type { Rig } from '../model/rig.ts';
import { gunBar, highestLineBar } from '../trade/head.ts';
import { stallBar } from '../trade/line.ts';
import { densityOf } from './density.ts';
import type { UsedRig } from './used.ts';

/** Air pressure a job may get at the pump, bar. An air-driven pump without a planned pressure may get its maximum. */
export function jobAirBar(rig: Rig, job: Job): number | null {
  return rig.drive === 'air' ? (job.airBar ?? rig.maxAirBar ?? null) : null;
}

/** The most fluid pressure a job can make at the pump, bar; null when a number for it is missing. */
export function pumpBar(rig: Rig, job: Job): number | null {
  if (rig.drive !== 'air') return job.fluidBar ?? rig.maxFluidBar ?? null;
  const air = jobAirBar(rig, job);
  return rig.ratio === undefined || air === null ? null : stallBar(rig.ratio, air);
}

/** The most pressure one job can put anywhere into the line, bar: a gun below the pump has the paint's own weight on top. */
export function jobBar(day: Day, rig: Rig, job: Job): number | null {
  const pump = pumpBar(rig, job);
  if (pump === null || job.liftM === undefined) return pump;
  const heaviest = densityOf(day.coatings[job.coating] ?? null).high;
  return highestLineBar({ pumpBar: pump, densityKgPerM3: heaviest * 1000, liftM: job.liftM });
}

/**
 * Looks whether the pump can lift its paint to the gun at all.
 * @throws TradeRefusal when it cannot: no figure of the job would mean anything.
 */
export function checkLift(rig: Rig, sheet: CoatingSheet, job: Job): void {
  const pump = pumpBar(rig, job);
  if (pump === null || job.liftM === undefined) return;
  gunBar({ pumpBar: pump, densityKgPerM3: densityOf(sheet).high * 1000, liftM: job.liftM });
}

/**
 * The most fluid pressure today's jobs can put into this rig's line, bar; null when a number for it is missing, which
 * every rule treats as the hazardous case.
 */
export function highestBar(day: Day, { rig, jobs }: UsedRig): number | null {
  if (!rig) return null;
  const each = jobs.map((job) => jobBar(day, rig, job));
  return each.some((bar) => bar === null) ? null : Math.max(...each.map(Number));
}
