import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { CarryOver, Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import type { RigId } from '../model/id.ts';
import type { Rig } from '../model/rig.ts';
import { planRig, type RigPlan } from '../trade/plan/plan-rig.ts';
import type { PlanInput, PlanJob } from '../trade/plan/types.ts';
import { TradeRefusal } from '../trade/refusal.ts';
import { flushPlanOf } from './flush-plan.ts';
import { jobPaint } from './job-paint.ts';
import { type SprayRate, sprayRate } from './plan-rate.ts';
import { recoatClosed, type Sprayed } from './plan-recoat.ts';
import { paintTemperatures, type WeatherGap, weatherGaps } from './plan-weather.ts';
import { potLifePoints } from './pot-life-points.ts';
import { tenthUp } from './round.ts';
import { rigName } from './used.ts';

/** What the plan counts on where no sheet and no policy says. Common practice, no source. */
export const SETUP_MINUTES = 30;
export const MIX_MINUTES = 10;
/** A larger pot heats itself and goes off sooner than any sheet says; one full kit is mixed whatever its size. */
export const MOST_POT_LITRES = 40;

export interface PlannedJob {
  /** Its place in the day entry. */
  readonly index: number;
  readonly job: Job;
  readonly sheet: CoatingSheet;
  readonly rate: SprayRate;
  readonly gaps: readonly WeatherGap[];
  /** The coat below has no recoat times on its sheet. */
  readonly recoatUnknown: boolean;
}

/** One rig's day as it could go. `jobs` are in the order of `input.jobs`. */
export type RigDay =
  | {
      readonly rig: RigId;
      readonly name: string;
      readonly jobs: readonly PlannedJob[];
      readonly input: PlanInput;
      readonly plan: RigPlan;
    }
  /** A figure of the day or the sheet with which nothing can be planned. */
  | { readonly rig: RigId; readonly name: string; readonly plan: null; readonly refusal: TradeRefusal };

/** One briefing asks for its plan in six places. */
const known = new WeakMap<Day, { readonly carriedIn: CarryOver | null; readonly plans: readonly RigDay[] }>();

/**
 * The plan of the day, rig by rig in the order of the jobs: arithmetic from what was posted, never leave to spray. What
 * really happens is in the shift; the plan does not follow it.
 */
export function dayPlan(day: Day, carriedIn: CarryOver | null): readonly RigDay[] {
  const before = known.get(day);
  if (before?.carriedIn === carriedIn) return before.plans;
  const plans = planned(day, carriedIn);
  known.set(day, { carriedIn, plans });
  return plans;
}

function planned(day: Day, carriedIn: CarryOver | null): readonly RigDay[] {
  const rigs = [...new Set(day.entry.jobs.map(({ rig }) => rig))];
  let sprayed: ReadonlyMap<number, Sprayed | null> = new Map();
  let plans = rigs.map((rig) => rigDay(day, carriedIn, rig, sprayed));
  // A coat over another of today waits for it, on whatever rig: plan again until no job learns of a new time.
  for (let turn = 0; turn < day.entry.jobs.length; turn += 1) {
    const found = sprayedTimes(plans);
    if (same(found, sprayed)) break;
    sprayed = found;
    plans = rigs.map((rig) => rigDay(day, carriedIn, rig, sprayed));
  }
  return plans;
}

function rigDay(
  day: Day,
  carriedIn: CarryOver | null,
  id: RigId,
  sprayed: ReadonlyMap<number, Sprayed | null>,
): RigDay {
  const name = rigName(day, id);
  try {
    const rig = day.rigs[id];
    if (!rig) throw new TradeRefusal('rig', id, 'a rig of the site', 'Nothing is known of this rig.');
    const jobs = day.entry.jobs.flatMap((job, index) =>
      job.rig === id ? [plannedJob(day, carriedIn, job, index, rig, sprayed)] : [],
    );
    const input = inputOf(day, rig, jobs);
    return { rig: id, name, jobs: jobs.map(({ planned }) => planned), input, plan: planRig(input) };
  } catch (error) {
    // The rest of the briefing must still be read: what cannot be planned is said in its place.
    if (error instanceof TradeRefusal) return { rig: id, name, plan: null, refusal: error };
    throw error;
  }
}

interface JobInput {
  readonly planned: PlannedJob;
  readonly input: PlanJob;
}

function plannedJob(
  day: Day,
  carriedIn: CarryOver | null,
  job: Job,
  index: number,
  rig: Rig,
  sprayed: ReadonlyMap<number, Sprayed | null>,
): JobInput {
  const sheet = day.coatings[job.coating];
  if (!sheet)
    throw new TradeRefusal('coating', job.coating, 'a coating of the site', 'Its sheet is missing.');
  const rate = sprayRate(day, job, rig, sheet);
  const gaps = weatherGaps(day, sheet);
  const recoat = recoatClosed(day, carriedIn, index, sprayed);
  const weather = gaps.map(({ from, to }) => ({ from, to, why: 'weather' }) as const);
  const input: PlanJob = {
    coating: job.coating,
    litres: tenthUp(jobPaint(day, job, sheet).paintL),
    areaM2: job.areaM2,
    ratio: sheet.parts === 2 ? (sheet.mixRatio ?? null) : null,
    kitLitres: sheet.kitLitres ?? null,
    thinnerPct: job.thinnerPct,
    potLife: potLifePoints(sheet),
    induction: sheet.induction,
    sprayLPerMin: rate.litresPerMin,
    closed: [...weather, ...recoat.closed],
  };
  return { planned: { index, job, sheet, rate, gaps, recoatUnknown: recoat.unknown }, input };
}

function inputOf(day: Day, rig: Rig, jobs: readonly JobInput[]): PlanInput {
  const flush = flushPlanOf(day, rig);
  return {
    startsAt: day.startsAt,
    endsAt: day.endsAt,
    breaks: day.breaks,
    jobs: jobs.map(({ input }) => input),
    ...paintTemperatures(day, rig),
    reserveFraction: day.policy.reservePct / 100,
    flushMinutes: flush.minutes,
    primaryL: flush.primaryL,
    secondaryL: flush.secondaryL,
    renewL: day.policy.lineVolumesToRenew * flush.lineL,
    setupMinutes: SETUP_MINUTES,
    mixMinutes: MIX_MINUTES,
    mostPotLitres: MOST_POT_LITRES,
  };
}

/** First mixing and last spraying of each job that is planned to its end. */
function sprayedTimes(plans: readonly RigDay[]): ReadonlyMap<number, Sprayed | null> {
  const found = new Map<number, Sprayed | null>();
  for (const one of plans) {
    if (one.plan === null) continue;
    one.jobs.forEach(({ index }, place) => {
      const mine = one.plan.batches.filter(({ job }) => job === place);
      const [first] = mine;
      const last = mine.at(-1);
      const whole = one.plan.jobs[place]?.complete && first && last;
      found.set(index, whole ? { firstAt: first.mixFrom, lastAt: last.sprayTo } : null);
    });
  }
  return found;
}

const same = (one: ReadonlyMap<number, Sprayed | null>, other: ReadonlyMap<number, Sprayed | null>) =>
  JSON.stringify([...one]) === JSON.stringify([...other]);
