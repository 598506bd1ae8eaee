import { DateTime } from 'luxon';
import { dayPlan, type RigDay } from '../../src/facts/plan.ts';
import type { CarryOver, Day } from '../../src/model/day.ts';
import type { Change } from '../../src/trade/plan/changes.ts';
import type { PlanBatch } from '../../src/trade/plan/types.ts';
import { type ChangeJson, type PlanJson, planJsonSchema } from './plan-schema.ts';

const NOTICE = 'Worked out from the day as posted. A plan, not a permission to spray.';

/** A day's plan in the shape of `planJsonSchema`. */
export function planJson(day: Day, carriedIn: CarryOver | null): PlanJson {
  const iso = (at: number) => isoAt(at, day.site.timeZone);
  return planJsonSchema.parse({
    version: 1,
    notice: NOTICE,
    site: day.site.id,
    date: day.entry.date,
    timeZone: day.site.timeZone,
    startsAt: iso(day.startsAt),
    endsAt: iso(day.endsAt),
    rigs: dayPlan(day, carriedIn).map((rig) => rigJson(rig, day, iso)),
  });
}

/** Whole seconds, downwards: a use-by is never later than it is. */
function isoAt(at: number, zone: string): string {
  return (
    DateTime.fromMillis(Math.floor(at / 1000) * 1000, { zone }).toISO({ suppressMilliseconds: true }) ?? ''
  );
}

/** Litres to the millilitre, m² to the hundredth: what nobody measures finer. */
const milli = (value: number): number => Math.round(value * 1000) / 1000 + 0;

type Iso = (at: number) => string;

function rigJson({ rig, name, ...one }: RigDay, day: Day, iso: Iso): PlanJson['rigs'][number] {
  if (one.plan === null) {
    const { field, value, valid, why } = one.refusal;
    return { rig, name, refused: { field, value: String(value), valid, why } };
  }
  const { plan, input, jobs } = one;
  const nameOf = (place: number) => ({
    area: jobs[place]?.job.area ?? '',
    coating: jobs[place]?.job.coating ?? '',
  });
  const { totals } = plan;
  return {
    rig,
    name,
    feasible: plan.feasible,
    reason: plan.reason,
    changes: plan.changes.map(changeJson),
    limits: plan.limits.map((limit) => ({ ...limit, moreL: milli(limit.moreL) })),
    jobs: plan.jobs.map((done, place) => ({
      ...nameOf(place),
      areaM2: input.jobs[place]?.areaM2 ?? 0,
      coveredM2: milli(done.coveredM2),
      neededL: milli(input.jobs[place]?.litres ?? 0),
      plannedL: milli(done.litres),
      sprayLPerMin: milli(input.jobs[place]?.sprayLPerMin ?? 0),
      complete: done.complete,
      closed: (input.jobs[place]?.closed ?? [])
        .map(({ from, to, why }) => ({
          from: Math.max(from, day.startsAt),
          to: Math.min(to, day.endsAt),
          why,
        }))
        .filter(({ from, to }) => to > from)
        .map(({ from, to, why }) => ({ from: iso(from), to: iso(to), why })),
    })),
    batches: plan.batches.map((batch, i) => ({
      number: i + 1,
      ...nameOf(batch.job),
      ...batchJson(batch, iso),
    })),
    flushes: plan.flushes.map(({ from, to, why, job, primaryL, secondaryL }) => ({
      from: iso(from),
      to: iso(to),
      why,
      solvent: jobs[job]?.sheet.flushSolvent ?? '',
      primaryL: milli(primaryL),
      secondaryL: milli(secondaryL),
    })),
    lastMix: plan.lastMixes.map(({ before, at, job, litres: batchL, mixBy }) => ({
      before,
      at: iso(at),
      coating: nameOf(job).coating,
      batchL: milli(batchL),
      mixBy: mixBy === null ? null : iso(mixBy),
    })),
    totals: {
      coatings: totals.coatings.map(({ coating, litres: mixedL, kits, thinnerL }) => ({
        coating,
        mixedL: milli(mixedL),
        kits,
        thinnerL: milli(thinnerL),
      })),
      primaryL: milli(totals.primaryL),
      secondaryL: milli(totals.secondaryL),
      coveredM2: milli(totals.coveredM2),
      areaM2: totals.areaM2,
    },
  };
}

function batchJson(batch: PlanBatch, iso: Iso) {
  const orNull = (at: number | null) => (at === null ? null : iso(at));
  return {
    mixFrom: iso(batch.mixFrom),
    mixTo: iso(batch.mixTo),
    readyAt: iso(batch.ready),
    sprayFrom: iso(batch.sprayFrom),
    sprayTo: iso(batch.sprayTo),
    outOfLineAt: iso(batch.outAt),
    useBy: orNull(batch.useBy),
    startFlushBy: orNull(batch.startFlushBy),
    deadAt: orNull(batch.deadAt),
    mixedL: milli(batch.litres),
    baseL: milli(batch.aL),
    hardenerL: milli(batch.bL),
    thinnerL: milli(batch.thinnerL),
    fullKits: batch.kits,
    measuredL: milli(batch.measuredL),
    standsLonger: batch.standsLonger,
  };
}

function changeJson(change: Change): ChangeJson {
  switch (change.kind) {
    case 'part-kits':
      return { kind: 'part-kits', batchesAtMostL: milli(change.litres) };
    case 'faster':
      return { kind: 'faster', timesTheFlow: change.factor };
    case 'less':
      return { kind: 'less', leftM2: milli(change.leftM2) };
    case 'earlier':
    case 'later':
    case 'rig':
      return change;
  }
}
