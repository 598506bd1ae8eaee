import { type Change, changesFor } from './changes.ts';
import { checkedInput } from './check-input.ts';
import { inOrder } from './expected-temperature.ts';
import { type LastMix, lastMixes } from './last-mix.ts';
import { isComplete, type Limit, type LimitKind, limitsOf } from './limits.ts';
import { scheduleOf } from './schedule.ts';
import { CRUMB_L } from './sizes.ts';
import { firstClear, joined } from './spans.ts';
import type { PlanInput, Schedule } from './types.ts';

export interface CoatingTotal {
  readonly coating: string;
  /** A and B together. */
  readonly litres: number;
  /** Kits to have ready, a begun one counted whole; null without a kit size. */
  readonly kits: number | null;
  readonly thinnerL: number;
}

export interface PlanTotals {
  readonly coatings: readonly CoatingTotal[];
  readonly primaryL: number;
  readonly secondaryL: number;
  readonly coveredM2: number;
  readonly areaM2: number;
}

/** `combined`: no single thing stands in the way; several together do. */
export type Reason = Exclude<LimitKind, 'paint'> | 'combined';

export interface RigPlan extends Schedule {
  readonly totals: PlanTotals;
  readonly lastMixes: readonly LastMix[];
  /** What limits the day, most first. */
  readonly limits: readonly Limit[];
  /** True when every job is sprayed and flushed. That is arithmetic, never leave to spray. */
  readonly feasible: boolean;
  /** Why not; null when feasible. */
  readonly reason: Reason | null;
  /** What would do, the nearest first; empty when feasible, or when nothing tried would do. */
  readonly changes: readonly Change[];
}

/**
 * The day of one rig: its jobs one after another, each batch mixed as late as it can be and as large as can be sprayed, with
 * a full flush behind it, inside its use-by.
 *
 * Assumptions, common practice without a source: one gun on a rig and one batch mixed at a time; a second pot, so that the
 * next batch is mixed while the last is sprayed; a pot is empty when a break begins, unless even one kit takes longer than
 * the time between two breaks; litres leave the gun evenly; spraying and flushing are counted in whole minutes, upwards.
 * Strict on purpose: the flush is over by the use-by, which already keeps the reserve and the time of a flush.
 * @throws TradeRefusal for a value out of range.
 */
export function planRig(given: PlanInput): RigPlan {
  const input = tidied(checkedInput(given));
  const schedule = scheduleOf(input);
  const feasible = isComplete(schedule);
  const limits = limitsOf(input, schedule);
  return {
    ...schedule,
    totals: totalsOf(input, schedule),
    lastMixes: lastMixes(input, schedule.batches),
    limits,
    feasible,
    reason: feasible ? null : reasonOf(input, schedule, limits),
    changes: changesFor(input, schedule),
  };
}

/** What alone would do most good; else a window that alone leaves no time; else everything together. */
function reasonOf(input: PlanInput, schedule: Schedule, limits: readonly Limit[]): Reason {
  const first = limits.find((limit): limit is Limit & { kind: Reason } => limit.kind !== 'paint');
  if (first) return first.kind;
  const shut = (why: 'weather' | 'recoat') =>
    schedule.jobs.some(({ complete }, i) => !complete && !opens(input, i, why));
  return shut('weather') ? 'weather' : shut('recoat') ? 'recoat' : 'combined';
}

/** Whether a kind of window leaves a job any time at all. */
function opens(input: PlanInput, index: number, kind: 'weather' | 'recoat'): boolean {
  const closed = (input.jobs[index]?.closed ?? []).filter(({ why }) => why === kind);
  return firstClear(input.startsAt, joined([...input.breaks, ...closed])) < input.endsAt;
}

/** Steps in order, and lengths a crew can read off a watch: upwards, so that the plan never promises time it has not. */
function tidied(input: PlanInput): PlanInput {
  const up = (minutes: number) => Math.ceil(minutes - 1e-9);
  return {
    ...input,
    flushMinutes: up(input.flushMinutes),
    setupMinutes: up(input.setupMinutes),
    mixMinutes: up(input.mixMinutes),
    paintC: inOrder(input.paintC),
    coldC: inOrder(input.coldC),
    hose: { ...input.hose, towardsC: inOrder(input.hose.towardsC) },
  };
}

function totalsOf(input: PlanInput, { batches, flushes, jobs }: Schedule): PlanTotals {
  const coatings = [...new Set(input.jobs.map(({ coating }) => coating))].map((coating): CoatingTotal => {
    const mine = batches.filter(({ job }) => input.jobs[job]?.coating === coating);
    const litres = sum(mine.map((batch) => batch.litres));
    const kit = input.jobs.find((job) => job.coating === coating)?.kitLitres ?? null;
    return {
      coating,
      litres,
      kits: kit === null ? null : Math.ceil((litres - CRUMB_L) / kit) + 0,
      thinnerL: sum(mine.map(({ thinnerL }) => thinnerL)),
    };
  });
  return {
    coatings,
    primaryL: sum(flushes.map(({ primaryL }) => primaryL)),
    secondaryL: sum(flushes.map(({ secondaryL }) => secondaryL)),
    coveredM2: sum(jobs.map(({ coveredM2 }) => coveredM2)),
    areaM2: sum(input.jobs.map(({ areaM2 }) => areaM2)),
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
