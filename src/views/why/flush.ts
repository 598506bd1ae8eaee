import { flushPlanOf } from '../../facts/flush-plan.ts';
import { tenthUp, wholeUp } from '../../facts/round.ts';
import { type SolventNeed, solventNeeds } from '../../facts/solvent.ts';
import { usedRigs } from '../../facts/used.ts';
import type { Rig } from '../../model/rig.ts';
import { hoseVolumeL } from '../../trade/line.ts';
import type { View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Litres and minutes of each rig's flush, and the solvent to bring for the day. */
export function whyFlush(view: View): readonly WhyItem[] {
  const { day, carriedIn } = view.shift;
  const needs = solventNeeds(day, carriedIn);
  return usedRigs(day).flatMap(({ id, name, rig }) => [
    ...(rig ? [flushItem(view, name, rig)] : []),
    ...needs.filter((need) => need.rig === id).map((need) => solventItem(view, need)),
  ]);
}

function flushItem({ shift, texts }: View, name: string, rig: Rig): WhyItem {
  const { policy } = shift.day;
  const plan = flushPlanOf(shift.day, rig);
  const line = decimals(plan.lineL, 3);
  const drain = rig.drainLineLitres;
  const hoses = rig.hoses.map(({ boreMm, lengthM }) =>
    texts.say('why.v.hose', { bore: boreMm, length: lengthM }),
  );
  const volumes = { first: policy.lineVolumesPrimary, second: policy.lineVolumesSecondary };
  const cycle = { cycle: rig.litresPerCycle, cycles: rig.flushCyclesPerMinute };
  const litres = decimals(plan.solventL, 2);
  return {
    topic: 'flush',
    about: name,
    result: texts.say('why.flush.result', {
      rig: name,
      minutes: wholeUp(plan.minutes),
      litres: tenthUp(plan.solventL),
    }),
    inputs: [
      [texts.say('why.in.hoses'), hoses.join(' + ')],
      [texts.say('why.in.pump-and-filter'), texts.say('why.v.litres', { n: rig.pumpAndFilterLitres })],
      [texts.say('why.in.drain'), texts.say('why.v.litres', { n: drain })],
      [texts.say('why.in.line-volumes'), texts.say('why.v.volumes', volumes)],
      [texts.say('why.in.cycle'), texts.say('why.v.cycle', cycle)],
      [texts.say('why.in.fixed'), texts.say('why.v.minutes', { n: policy.flushFixedMinutes })],
    ],
    formula: [
      texts.say('why.flush.line', {
        sum: rig.hoses.map((hose) => decimals(hoseVolumeL([hose]), 3)).join(' + '),
        pump: rig.pumpAndFilterLitres,
        line,
      }),
      texts.say('why.flush.primary', {
        volumes: volumes.first,
        line,
        drain,
        litres: decimals(plan.primaryL, 2),
      }),
      texts.say('why.flush.secondary', {
        volumes: volumes.second,
        line,
        drain,
        litres: decimals(plan.secondaryL, 2),
      }),
      texts.say('why.flush.minutes', {
        fixed: policy.flushFixedMinutes,
        litres,
        ...cycle,
        minutes: decimals(plan.minutes, 1),
      }),
    ].join(' '),
    source: texts.say('why.flush.source'),
  };
}

function solventItem({ texts }: View, need: SolventNeed): WhyItem {
  const { name, solvent, flushes, eachL, standingL, settledL, cleanL } = need;
  const standing = decimals(standingL, 1);
  const sum = { flushes, each: decimals(eachL, 2), clean: decimals(flushes * eachL - settledL, 2) };
  return {
    topic: 'solvent',
    about: name,
    result: texts.say('why.solvent.result', { rig: name, clean: cleanL, solvent }),
    inputs: [
      [texts.say('why.in.flushes'), String(flushes)],
      ...(standingL > 0
        ? [[texts.say('why.in.settled'), texts.say('why.v.litres', { n: standing })] as const]
        : []),
    ],
    formula:
      settledL > 0
        ? [
            texts.say('why.solvent.decanted', { standing, settled: settledL }),
            texts.say('why.solvent.formula', { ...sum, settled: settledL }),
          ].join(' ')
        : texts.say('why.solvent.plain', sum),
    source: texts.say('why.solvent.source'),
  };
}
