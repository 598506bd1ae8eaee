import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { HOUR } from '../model/time.ts';
import { worstCommonSolvent } from '../trade/solvents.ts';
import { type SolventVapour, solventPerLitre } from '../trade/vapour.ts';
import { paintBurns, thinnerBurns } from './hazards.ts';
import { jobPaint } from './job-paint.ts';
import { sprayEstimate } from './spray.ts';

/** Solvent of one job that goes into the air in its busiest hour, from the paint itself or from its thinner. */
export interface SolventLoad {
  readonly from: 'paint' | 'thinner';
  readonly litresPerHour: number;
  readonly solvent: SolventVapour;
  /** `worst`: the sheet has no vapour data, so the worst of the common solvents stands in. */
  readonly basis: 'sheet' | 'worst';
}

/** Litres of unthinned paint an hour: by what the tip passes, or the mean of the day where no tip is known. */
export interface PaintRate {
  readonly litresPerHour: number;
  readonly by: 'tip' | 'mean';
}

/** Working hours of the shift, breaks left out; a shift that is all breaks counts as one hour. */
export function workingHours(day: Day): number {
  const rest = day.breaks.reduce((sum, { from, to }) => sum + (to - from), 0);
  const hours = (day.endsAt - day.startsAt - rest) / HOUR;
  return hours > 0 ? hours : 1;
}

/** The mean over the working hours: what is left to go by when nobody knows the tip. */
export function meanRate(day: Day, job: Job, sheet: CoatingSheet): PaintRate {
  return { litresPerHour: jobPaint(day, job, sheet).paintL / workingHours(day), by: 'mean' };
}

/**
 * What the tip passes in the trigger time of a whole hour of this job, and how many such hours the job lasts; null where no
 * tip is known.
 */
export function tipHour(
  day: Day,
  job: Job,
  sheet: CoatingSheet,
): { readonly litresPerHour: number; readonly hours: number } | null {
  const estimate = sprayEstimate(day, job);
  if (!estimate) return null;
  const thinned = estimate.flow.high * 60 * (day.policy.gunOnPct / 100);
  const litresPerHour = thinned / (1 + job.thinnerPct / 100);
  return { litresPerHour, hours: jobPaint(day, job, sheet).paintL / litresPerHour };
}

/** What evaporates of so much paint an hour; empty when neither the paint nor its thinner can burn. */
export function loadsOf(job: Job, sheet: CoatingSheet, { litresPerHour }: PaintRate): readonly SolventLoad[] {
  const { fromPaintL, fromThinnerL } = solventPerLitre(sheet.volumeSolids, job.thinnerPct);
  const load = (from: 'paint' | 'thinner', share: number): readonly SolventLoad[] => {
    const evaporating = burnableL(sheet, from, litresPerHour * share);
    if (evaporating === 0) return [];
    const given = sheet.vapour?.[from];
    const solvent = given ?? worstCommonSolvent();
    return [{ from, litresPerHour: evaporating, solvent, basis: given ? 'sheet' : 'worst' }];
  };
  return [...load('paint', fromPaintL), ...load('thinner', fromThinnerL)];
}

/** Of so much solvent out of the paint or its thinner what counts: all of it, or nothing where it cannot burn. */
export function burnableL(sheet: CoatingSheet, from: 'paint' | 'thinner', litres: number): number {
  const burns = from === 'paint' ? paintBurns(sheet) !== null : thinnerBurns(sheet);
  return burns ? litres : 0;
}
