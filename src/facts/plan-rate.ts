import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import type { Rig } from '../model/rig.ts';
import { inchesToMillimetres } from '../trade/convert.ts';
import { gunBar } from '../trade/head.ts';
import { CHART_CD, tipFlowLPerMin } from '../trade/tip.ts';
import { densityOf } from './density.ts';
import { pumpBar } from './pressure.ts';
import { tipOf, tipSizeOf } from './spray.ts';

/**
 * Where no tip is known: a small one, so that no batch is planned larger than it can be sprayed.
 * Common practice, no source.
 */
export const SMALL_TIP_INCH = 0.013;
/** Where no pressure is known: what a small pump makes. Common practice, no source. */
const LOW_BAR = 100;

export interface SprayRate {
  /** Code of the tip; null: none known, a small one counted. */
  readonly tip: string | null;
  readonly orificeMm: number;
  readonly bar: number;
  /** The heaviest the paint may be: heavy paint comes out slower. */
  readonly kgPerL: number;
  readonly densityKnown: boolean;
  /** What the tip passes with the trigger pulled, L/min. */
  readonly tipLPerMin: number;
  /** What the pump can move, L/min. */
  readonly pumpLPerMin: number;
  readonly gunOnPct: number;
  /** What the plan counts on over the time of spraying, L/min. */
  readonly litresPerMin: number;
}

/** Thinned paint through the gun of one job, from the slow side, so that no batch outlasts its spraying. */
export function sprayRate(day: Day, job: Job, rig: Rig, sheet: CoatingSheet): SprayRate {
  const code = tipOf(day, job);
  const size = tipSizeOf(code);
  const orificeMm = size?.orificeMm ?? inchesToMillimetres(SMALL_TIP_INCH);
  const density = densityOf(sheet);
  const densityKgPerM3 = density.high * 1000;
  const pump = pumpBar(rig, job) ?? LOW_BAR;
  const bar = gunBar({ pumpBar: pump, densityKgPerM3, liftM: job.liftM ?? 0 });
  const tipLPerMin = tipFlowLPerMin({ orificeMm, bar, densityKgPerM3, cd: CHART_CD });
  const pumpLPerMin = rig.litresPerCycle * rig.flushCyclesPerMinute;
  const { gunOnPct } = day.policy;
  return {
    tip: size ? code : null,
    orificeMm,
    bar,
    kgPerL: density.high,
    densityKnown: density.known,
    tipLPerMin,
    pumpLPerMin,
    gunOnPct,
    litresPerMin: (Math.min(tipLPerMin, pumpLPerMin) * gunOnPct) / 100,
  };
}
