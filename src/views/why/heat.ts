import { hottestAir } from '../../facts/expected-air.ts';
import { tenth, tenthDown, tenthUp, wholeUp } from '../../facts/round.ts';
import type { Reading } from '../../model/shift.ts';
import { type FeltHeat, feltHeat, heatSteps, SUN_ADDS_C } from '../../trade/heat.ts';
import { assessWbgt, COVERALLS_ADD_C } from '../../trade/wbgt.ts';
import type { View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

interface Air {
  readonly airC: number;
  readonly rhPct: number;
}

/** Heat index expected for the hottest part of the day and that of the last reading; the WBGT of either. */
export function whyHeat(view: View): readonly WhyItem[] {
  const { shift, texts } = view;
  const last = shift.readings.at(-1);
  const expectedWbgt = shift.day.entry.weather.wbgtC;
  return [
    ...indexItem(view, hottestAir(shift.day), texts.say('why.heat.expected'), 'expected'),
    ...(expectedWbgt === undefined ? [] : [wbgtItem(view, expectedWbgt, texts.say('why.heat.expected'))]),
    ...(last ? indexItem(view, last, last.place, 'read') : []),
    ...(last ? readWbgt(view, last) : []),
  ];
}

function indexItem(
  { shift, texts }: View,
  { airC, rhPct }: Air,
  about: string,
  from: 'expected' | 'read',
): readonly WhyItem[] {
  const felt = feltHeat(airC, rhPct);
  if (felt.kind === 'cool') return [];
  const { sun } = shift.day.entry.weather;
  return [
    {
      topic: 'heat-index',
      about,
      result: resultOf(texts, felt),
      inputs: [
        [texts.say(`why.in.air-${from}`), texts.say('why.v.c', { n: airC })],
        [texts.say(`why.in.rh-${from}`), texts.say('reading.percent', { p: rhPct })],
      ],
      formula: [
        ...stepsOf(texts, airC, rhPct),
        ...(felt.kind === 'index' && sun
          ? [texts.say('why.heat.sun', { c: tenth(felt.indexC), sunC: tenth(felt.indexC + SUN_ADDS_C) })]
          : []),
      ].join(' '),
      source: texts.say('why.heat.source'),
    },
  ];
}

function resultOf(texts: View['texts'], felt: Exclude<FeltHeat, { kind: 'cool' }>): string {
  if (felt.kind === 'off-chart') return texts.say('why.heat.off-chart');
  const c = wholeUp(felt.indexC);
  if (felt.band === null) return texts.say('why.heat.low', { c });
  return texts.say('why.heat.result', { c, band: texts.say(`word.heat.${felt.band}`) });
}

function stepsOf(texts: View['texts'], airC: number, rh: number): readonly string[] {
  const { airF, regressionF, adjustF, indexF } = heatSteps(airC, rh);
  const f = decimals(airF, 2);
  const index = decimals(indexF, 1);
  const last = texts.say('why.heat.celsius', { index, c: decimals((indexF - 32) / 1.8, 1) });
  if (regressionF === null) return [texts.say('why.heat.average', { f, rh, index }), last];
  const regression = decimals(regressionF, 1);
  const adjust = decimals(adjustF, 1);
  return [
    texts.say('why.heat.regression', { f, rh, index: regression }),
    ...(adjustF === 0 ? [] : [texts.say('why.heat.adjusted', { index: regression, adjust, sum: index })]),
    last,
  ];
}

function readWbgt(view: View, { wbgtC, place }: Reading): readonly WhyItem[] {
  return wbgtC === null ? [] : [wbgtItem(view, wbgtC, place)];
}

function wbgtItem({ shift, texts }: View, wbgtC: number, about: string): WhyItem {
  const { coveralls, workW } = shift.day.policy;
  const { wornC, usedC, newC } = assessWbgt(wbgtC, coveralls, workW);
  const limits = { used: tenthDown(usedC), new: tenthDown(newC) };
  return {
    topic: 'wbgt',
    about,
    result: texts.say('why.wbgt.result', { c: tenth(wbgtC), worn: tenthUp(wornC), ...limits }),
    inputs: [
      [texts.say('why.in.wbgt'), texts.say('why.v.c', { n: wbgtC })],
      [texts.say('why.in.coveralls'), texts.say(`word.coveralls.${coveralls}`)],
      [texts.say('why.in.work'), texts.say('why.v.watt', { n: workW })],
    ],
    formula: texts.say('why.wbgt.formula', {
      c: wbgtC,
      adds: COVERALLS_ADD_C[coveralls],
      worn: decimals(wornC, 1),
      work: workW,
      used: decimals(usedC, 2),
      new: decimals(newC, 2),
    }),
    source: texts.say('why.wbgt.source'),
  };
}
