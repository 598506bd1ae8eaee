import { dayPlan, MOST_POT_LITRES, type RigDay } from '../../facts/plan.ts';
import { litresForRatio, litresForRatioDown } from '../../facts/round.ts';
import { MINUTE } from '../../model/time.ts';
import { expectedC } from '../../trade/plan/expected-temperature.ts';
import type { PlanBatch } from '../../trade/plan/types.ts';
import { at, type View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Each batch of the plan: its litres, its times, and that its flush is over by its use-by. */
export function whyPlan(view: View): readonly WhyItem[] {
  return dayPlan(view.shift.day, view.shift.carriedIn).flatMap((rig) =>
    rig.plan === null ? [] : rig.plan.batches.map((batch, i) => batchItem(view, rig, batch, i + 1)),
  );
}

type Planned = Extract<RigDay, { readonly plan: object }>;

function batchItem(view: View, rig: Planned, batch: PlanBatch, n: number): WhyItem {
  const { texts } = view;
  const { input } = rig;
  const job = input.jobs[batch.job];
  const rate = rig.jobs[batch.job]?.rate;
  const [mix, from, to] = [at(view, batch.mixFrom), at(view, batch.sprayFrom), at(view, batch.sprayTo)];
  const minutes = job ? Math.max(1, Math.ceil((batch.litres + batch.thinnerL) / job.sprayLPerMin - 1e-9)) : 0;
  const formula = [
    texts.say('why.plan.rate', {
      flow: decimals(rate?.tipLPerMin ?? 0, 3),
      pump: decimals(rate?.pumpLPerMin ?? 0, 3),
      on: rate?.gunOnPct ?? 0,
      rate: decimals(job?.sprayLPerMin ?? 0, 3),
    }),
    texts.say('why.plan.size', {
      litres: litresForRatio(batch.litres),
      thinner: litresForRatioDown(batch.thinnerL),
      inPot: decimals(batch.litres + batch.thinnerL, 2),
      rate: decimals(job?.sprayLPerMin ?? 0, 3),
      minutes,
    }),
    texts.say('why.plan.times', {
      mix,
      mixMinutes: (batch.mixTo - batch.mixFrom) / MINUTE,
      stand: (batch.ready - batch.mixTo) / MINUTE,
      ready: at(view, batch.ready),
      from,
      minutes,
      to,
    }),
    ...outOfLine(view, rig, batch),
  ];
  return {
    topic: 'plan',
    about: rig.name,
    result: texts.say('why.plan.result', { rig: rig.name, n, mix, litres: litresForRatio(batch.litres) }),
    inputs: [
      [texts.say('why.in.spray-rate'), texts.say('why.v.flow', { n: decimals(job?.sprayLPerMin ?? 0, 3) })],
      [texts.say('why.in.pot-limit'), texts.say('why.v.litres', { n: MOST_POT_LITRES })],
      [texts.say('why.in.mix-minutes'), texts.say('why.v.minutes', { n: input.mixMinutes })],
      [
        texts.say('why.in.paint-expected'),
        texts.say('why.v.degrees', { n: decimals(expectedC(input.paintC, batch.mixFrom), 1) }),
      ],
      ...(batch.useBy === null ? [] : [[texts.say('why.in.use-by'), at(view, batch.useBy)] as const]),
    ],
    formula: formula.join(' '),
    source: texts.say('why.plan.source'),
  };
}

/** How its last paint leaves the line in time; a one-pack has no such time. */
function outOfLine(view: View, { plan, input }: Planned, { outAt, useBy }: PlanBatch): readonly string[] {
  if (useBy === null) return [];
  const shown = { out: at(view, outAt), useBy: at(view, useBy) };
  const flush = plan.flushes.find(({ to }) => to === outAt);
  if (!flush) return [view.texts.say('why.plan.out', shown)];
  const flushMinutes = Math.ceil(input.flushMinutes - 1e-9);
  return [view.texts.say('why.plan.flush', { ...shown, from: at(view, flush.from), flushMinutes })];
}
