import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { freeAirLPerMin } from '../trade/air.ts';
import { gunBar } from '../trade/head.ts';
import { pressureAtHPa } from '../trade/pressure-at.ts';
import { m2PerMinute } from '../trade/spray-rate.ts';
import { CHART_CD, isTipCode, type TipSize, tipCode, tipFlowLPerMin } from '../trade/tip.ts';
import { type DensityRange, densityOf } from './density.ts';
import { lossPctOf } from './job-paint.ts';
import { jobAirBar, pumpBar } from './pressure.ts';
import type { UsedRig } from './used.ts';

/** The code of the tip a job is sprayed with: the one fitted, else the one on the sheet. Null when neither says. */
export function tipOf(day: Day, job: Job): string | null {
  return (job.tip ?? day.coatings[job.coating]?.tip ?? '').trim() || null;
}

/** What a tip code stands for; null when it is not a three-digit one, because a guess would be wrong. */
export function tipSizeOf(code: string | null): TipSize | null {
  return code !== null && isTipCode(code) ? tipCode(code) : null;
}

export interface SprayEnd {
  readonly kgPerL: number;
  /** At the gun, without the friction in the hose: less in truth, so what follows is the most there can be. */
  readonly bar: number;
  /** Thinned paint a minute with the trigger pulled, L. */
  readonly flow: number;
  /** Square metres a minute with the trigger pulled, at the film asked for. */
  readonly m2: number;
}

export interface SprayEstimate {
  readonly tip: string;
  readonly size: TipSize;
  readonly density: DensityRange;
  /** Worked out for the lightest and for the heaviest the paint may be. */
  readonly ends: readonly [SprayEnd, SprayEnd];
  /** Litres of thinned paint a minute with the trigger pulled, from the heaviest to the lightest the paint may be. */
  readonly flow: { readonly low: number; readonly high: number };
  /** Square metres a minute with the trigger pulled, at the film asked for. */
  readonly m2: { readonly low: number; readonly high: number };
}

/** Flow and m² a minute of one job; null when tip, pressure or sheet is not known. */
export function sprayEstimate(day: Day, job: Job): SprayEstimate | null {
  const rig = day.rigs[job.rig];
  const sheet = day.coatings[job.coating];
  const tip = tipOf(day, job);
  const size = tipSizeOf(tip);
  const pump = rig ? pumpBar(rig, job) : null;
  if (!sheet || tip === null || !size || pump === null) return null;
  const density = densityOf(sheet);
  const at = (kgPerL: number): SprayEnd => {
    const densityKgPerM3 = kgPerL * 1000;
    const bar = gunBar({ pumpBar: pump, densityKgPerM3, liftM: job.liftM ?? 0 });
    const flow = tipFlowLPerMin({ orificeMm: size.orificeMm, bar, densityKgPerM3, cd: CHART_CD });
    const m2 = m2PerMinute({
      flowLPerMin: flow,
      volumeSolidsPct: sheet.volumeSolids,
      thinnerPct: job.thinnerPct,
      dftUm: job.dftUm,
      profileAllowanceUm: job.profileUm,
      lossPct: lossPctOf(day, job),
    });
    return { kgPerL, bar, flow, m2 };
  };
  const ends = [at(density.low), at(density.high)] as const;
  const between = (figure: 'flow' | 'm2') => {
    const [x, y] = ends;
    return { low: Math.min(x[figure], y[figure]), high: Math.max(x[figure], y[figure]) };
  };
  return { tip, size, density, ends, flow: between('flow'), m2: between('m2') };
}

export interface AirNeed {
  readonly job: Job;
  readonly tip: string;
  readonly fluidLPerMin: number;
  readonly airBar: number;
  readonly ratio: number;
  readonly ambientBar: number;
  /** Free air the pump takes with the trigger pulled, L/min; leaks come on top. */
  readonly needLPerMin: number;
  /** Free air there is for this pump, L/min; null when nobody wrote it down. */
  readonly haveLPerMin: number | null;
}

/** The job of this rig that takes the most air; null when the rig is not air-driven or no job's flow is known. */
export function airNeed(day: Day, { rig, jobs }: UsedRig): AirNeed | null {
  if (rig?.drive !== 'air' || rig.ratio === undefined) return null;
  const { ratio, compressorLPerMin } = rig;
  const ambientBar = pressureAtHPa(day.site.altitudeM) / 1000;
  const needs = jobs.flatMap((job): AirNeed[] => {
    const estimate = sprayEstimate(day, job);
    const airBar = jobAirBar(rig, job);
    if (!estimate || airBar === null) return [];
    const fluidLPerMin = estimate.flow.high;
    const needLPerMin = freeAirLPerMin({ ratio, fluidLPerMin, airBar, ambientBar });
    const haveLPerMin = compressorLPerMin ?? null;
    return [{ job, tip: estimate.tip, fluidLPerMin, airBar, ratio, ambientBar, needLPerMin, haveLPerMin }];
  });
  return needs.reduce<AirNeed | null>(
    (most, one) => (most === null || one.needLPerMin > most.needLPerMin ? one : most),
    null,
  );
}

/** Whether the compressor gives less than the pump takes, as far as anybody knows. */
export const airIsShort = (need: AirNeed | null): need is AirNeed & { readonly haveLPerMin: number } =>
  need !== null && need.haveLPerMin !== null && need.needLPerMin > need.haveLPerMin;
