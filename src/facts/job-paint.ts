import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { litresNeeded } from '../trade/film.ts';

/** What one job uses up, with the figures it was worked out from. */
export interface JobPaint {
  /** Litres of unthinned paint, base and hardener together. */
  readonly paintL: number;
  /** Litres of thinner on top of it. */
  readonly thinnerL: number;
  /** Per cent of the paint used that is lost. */
  readonly lossPct: number;
  /** Dry film that fills the blast profile, µm. */
  readonly profileUm: number;
}

/** The job's own loss, or else the site's. */
export const lossPctOf = (day: Day, job: Job): number => job.lossPct ?? day.policy.lossPct;

/** @throws TradeRefusal when a figure of the job or the sheet cannot be right. */
export function jobPaint(day: Day, job: Job, sheet: Pick<CoatingSheet, 'volumeSolids'>): JobPaint {
  const lossPct = lossPctOf(day, job);
  const profileUm = job.profileUm ?? 0;
  const paintL = litresNeeded({
    areaM2: job.areaM2,
    dftUm: job.dftUm,
    volumeSolidsPct: sheet.volumeSolids,
    lossPct,
    profileAllowanceUm: profileUm,
  });
  return { paintL, thinnerL: (paintL * job.thinnerPct) / 100, lossPct, profileUm };
}
