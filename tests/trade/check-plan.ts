import type { RigPlan } from '../../src/trade/plan/plan-rig.ts';
import type { PlanBatch, PlanInput, PlanJob, Span } from '../../src/trade/plan/types.ts';
import { potLifeMinutes } from '../../src/trade/pot-life.ts';

const MIN = 60_000;

/**
 * What is wrong with a plan, by walking through its day minute by minute. Written apart from the planner: it knows nothing
 * of how a plan is made, only what must be true of pot and line at every moment.
 */
export function checkPlan(plan: RigPlan, input: PlanInput): readonly string[] {
  const wrong: string[] = [];
  const say = (holds: boolean, what: string) => {
    if (!holds) wrong.push(what);
  };
  const { batches, flushes } = plan;

  batches.forEach((batch, i) => {
    const name = `batch ${i}`;
    const job = input.jobs[batch.job] as PlanJob;
    const numbers = Object.values(batch).filter((value) => typeof value === 'number');
    say(numbers.every(Number.isFinite), `${name} has a number that is none`);
    say(batch.mixFrom >= input.startsAt, `${name} is mixed before the start`);
    say(batch.mixTo - batch.mixFrom >= input.mixMinutes * MIN, `${name} is mixed too fast`);
    say(
      batch.mixTo <= batch.ready && batch.ready <= batch.sprayFrom,
      `${name} is sprayed before it is ready`,
    );
    say(batch.sprayFrom < batch.sprayTo, `${name} takes no time to spray`);
    if (batch.useBy !== null && batch.startFlushBy !== null && batch.deadAt !== null) {
      say(batch.outAt <= batch.useBy, `${name} is still in the line at its use-by`);
      say(
        batch.sprayTo <= batch.startFlushBy && batch.useBy <= batch.startFlushBy,
        `${name} is flushed too late`,
      );
      say(batch.startFlushBy <= batch.deadAt, `${name} is flushed when it is dead`);
    }
    say(
      !input.breaks.some((one) => meet(one, { from: batch.mixFrom, to: batch.mixTo })),
      `${name} is mixed in a break`,
    );
    say(
      !job.closed.some((one) => one.why === 'weather' && meet(one, { from: batch.mixFrom, to: batch.mixTo })),
      `${name} is mixed in weather it cannot be sprayed in`,
    );
    const litresOut = (minutesOpen(input, job, batch.sprayFrom, batch.sprayTo) * job.sprayLPerMin) as number;
    say(litresOut >= batch.litres + batch.thinnerL - 1e-6, `${name} is sprayed faster than the gun can`);
    if (job.ratio)
      say(
        close(batch.aL * job.ratio.b, batch.bL * job.ratio.a),
        `${name} is off ratio: ${batch.aL} to ${batch.bL}`,
      );
    say(close(batch.aL + batch.bL, batch.litres), `${name}: its parts do not add up`);
    say(close(batch.thinnerL, (batch.litres * job.thinnerPct) / 100), `${name} has the wrong thinner`);
    if (job.kitLitres !== null) {
      const kits = batch.kits ?? Number.NaN;
      say(Number.isInteger(kits), `${name} is not made of whole kits`);
      say(
        Math.abs(kits * job.kitLitres + batch.measuredL - batch.litres) < 0.1,
        `${name}: kits and litres differ`,
      );
      const later = batches.slice(i + 1).some((other) => other.job === batch.job);
      say(batch.measuredL === 0 || !later, `${name} is a part kit, and not the last`);
      say(batch.litres <= Math.max(job.kitLitres, input.mostPotLitres) + 0.1, `${name} is too large a pot`);
    }
    const before = batches[i - 1];
    if (before) {
      say(batch.mixFrom >= before.mixTo, `${name} is mixed while the one before is`);
      say(batch.sprayFrom >= before.sprayTo, `${name} is sprayed while the one before is`);
    }
  });
  flushes.forEach((flush, i) => {
    say(flush.to - flush.from >= input.flushMinutes * MIN - 1, `flush ${i} is too short`);
    say(flush.to <= input.endsAt, `flush ${i} ends after the shift`);
    say(!input.breaks.some((one) => meet(one, flush)), `flush ${i} runs through a break`);
    say(
      !batches.some((one) => meet({ from: one.sprayFrom, to: one.sprayTo }, flush)),
      `flush ${i} while spraying`,
    );
  });
  wrong.push(...walk(plan, input));

  input.jobs.forEach((job, i) => {
    const litres = batches.filter(({ job: of }) => of === i).reduce((sum, one) => sum + one.litres, 0);
    say(litres <= job.litres + 1e-6, `job ${i} gets more than it needs`);
    if (plan.feasible) say(litres >= job.litres - 0.06, `job ${i} is called done and is not`);
  });
  say(plan.feasible === (plan.reason === null), 'a plan that is not feasible must say why');
  return wrong;
}

interface Inside {
  readonly batch: PlanBatch;
  readonly job: PlanJob;
  dose: number;
  /** Minutes since mixing. */
  age: number;
}

/** Pot and line, minute by minute: whatever is in them must be inside its use-by, and nothing is left in at the end. */
function walk(plan: RigPlan, input: PlanInput): readonly string[] {
  const wrong: string[] = [];
  let line: Inside[] = [];
  let through = 0;
  let flowing: PlanBatch | null = null;
  let stillSince: number | null = null;
  const pots = new Map<PlanBatch, Inside>();
  for (let at = input.startsAt; at <= input.endsAt; at += MIN) {
    if (plan.flushes.some(({ to }) => to === at)) line = [];
    for (const batch of plan.batches) {
      const job = input.jobs[batch.job] as PlanJob;
      if (batch.mixFrom === at) pots.set(batch, { batch, job, dose: 0, age: 0 });
      if (batch.sprayTo === at) pots.delete(batch);
    }
    const sprayed = plan.batches.find(
      (one) =>
        one.sprayFrom <= at &&
        at < one.sprayTo &&
        minutesOpen(input, input.jobs[one.job] as PlanJob, at, at + MIN) > 0,
    );
    if (sprayed) {
      if (sprayed !== flowing) {
        flowing = sprayed;
        through = 0;
      }
      const job = input.jobs[sprayed.job] as PlanJob;
      if (line.some((one) => one.job.coating !== job.coating))
        wrong.push('one coating on another in the line');
      if (!line.some((one) => one.batch === sprayed)) {
        const pot = pots.get(sprayed);
        if (pot) line.push({ ...pot });
      }
    }
    for (const one of [...line, ...pots.values()]) {
      const room = Math.max(1 - input.reserveFraction, 0);
      if (!one.job.potLife || one.dose <= room + 1e-6) continue;
      wrong.push(`paint is past its use-by at minute ${(at - input.startsAt) / MIN}`);
      return wrong;
    }
    const flushing = plan.flushes.some(({ from, to }) => from <= at && at < to);
    stillSince = sprayed || flushing ? null : (stillSince ?? at);
    for (const one of line) one.dose += doseOf(one.job, inLineC(input, at, stillSince));
    for (const one of pots.values()) one.dose += doseOf(one.job, tempAt(input.paintC, at));
    if (sprayed) {
      const job = input.jobs[sprayed.job] as PlanJob;
      const minutes = minutesOpen(input, job, sprayed.sprayFrom, sprayed.sprayTo);
      through += (sprayed.litres + sprayed.thinnerL) / minutes;
      // Only what has gone through since the gun was opened on this batch pushes older paint out.
      if (through >= input.renewL - 1e-6) line = line.filter((one) => one.batch === sprayed);
    }
  }
  if (line.length > 0) wrong.push('paint is left in the line at the end');
  if (pots.size > 0) wrong.push('paint is left in a pot at the end');
  return wrong;
}

const doseOf = (job: PlanJob, c: number) => (job.potLife ? 1 / potLifeMinutes(job.potLife, c).minutes : 0);

/** A hose that has stood still for m minutes is start + (towards − start) · (1 − e^(−m/τ)), and never cooler than the pot. */
function inLineC(input: PlanInput, at: number, stillSince: number | null): number {
  const pot = tempAt(input.paintC, at);
  if (stillSince === null) return pot;
  const start = tempAt(input.paintC, stillSince);
  const share = 1 - Math.exp(-(at - stillSince) / MIN / input.hose.timeConstantMinutes);
  return Math.max(pot, start + (tempAt(input.hose.towardsC, at) - start) * share);
}

function tempAt(steps: PlanInput['paintC'], at: number): number {
  const sorted = [...steps].sort((x, y) => x.at - y.at || x.c - y.c);
  let c = sorted[0]?.c ?? Number.NaN;
  for (const step of sorted) if (step.at <= at) c = step.c;
  return c;
}

/** Minutes between two moments in which the job may be sprayed. */
function minutesOpen(input: PlanInput, job: PlanJob, from: number, to: number): number {
  let open = 0;
  for (let at = from; at < to; at += MIN)
    if (![...input.breaks, ...job.closed].some((one) => meet(one, { from: at, to: at + MIN }))) open += 1;
  return open;
}

const meet = (one: Span, other: Span) => one.from < one.to && one.from < other.to && other.from < one.to;
const close = (x: number, y: number) => Math.abs(x - y) <= 1e-6 * Math.max(1, Math.abs(x), Math.abs(y));
