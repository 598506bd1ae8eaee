import { densityOf } from '../../facts/density.ts';
import { jobAirBar, jobBar, pumpBar } from '../../facts/pressure.ts';
import { wholeDown, wholeUp } from '../../facts/round.ts';
import { airIsShort, airNeed } from '../../facts/spray.ts';
import { type UsedRig, usedRigs } from '../../facts/used.ts';
import type { Job } from '../../model/day-entry.ts';
import type { Rig } from '../../model/rig.ts';
import { gunBar, staticHeadBar } from '../../trade/head.ts';
import { lowestRating } from '../../trade/line.ts';
import type { View } from '../context.ts';
import { decimals, densityText } from './figures.ts';
import type { WhyItem } from './item.ts';

/** The highest pressure in each rig's line, and the air its pump takes. A rig with a number missing has no such figure. */
export function whyPressure(view: View): readonly WhyItem[] {
  return usedRigs(view.shift.day).flatMap((used) => [...pressureItem(view, used), ...airItem(view, used)]);
}

function pressureItem(view: View, { rig, name, jobs }: UsedRig): readonly WhyItem[] {
  const { day } = view.shift;
  const found = jobs.flatMap((job) => {
    const pump = rig && pumpBar(rig, job);
    const most = rig && jobBar(day, rig, job);
    return pump === null || most === null ? [] : [{ job, pump, most }];
  });
  const worst = found.reduce<(typeof found)[number] | null>(
    (most, one) => (most === null || one.most > most.most ? one : most),
    null,
  );
  // One job whose pressure nobody knows makes the rig's unknown: no figure, and a hold says so.
  if (!rig || !worst || found.length < jobs.length) return [];
  const { texts } = view;
  const { job, pump, most } = worst;
  const weakest = rig.ratings.length > 0 ? lowestRating(rig.ratings) : null;
  const bar = wholeUp(most);
  const result =
    weakest && most > weakest.bar
      ? texts.say('why.pressure.over', {
          rig: name,
          bar,
          part: texts.say(`word.part.${weakest.part as 'hose'}`),
          rated: wholeDown(weakest.bar),
        })
      : texts.say('why.pressure.result', { rig: name, bar });
  const ratings = rig.ratings.map(({ part, bar: rated }) =>
    texts.say('why.v.rating', { part: texts.say(`word.part.${part}`), bar: rated }),
  );
  return [
    {
      topic: 'pressure',
      about: name,
      result,
      inputs: [
        ...driveInputs(view, rig, job),
        ...(job.liftM
          ? [
              [texts.say('why.in.lift'), texts.say('why.v.metres', { n: job.liftM })] as const,
              [
                texts.say('why.in.density'),
                densityText(texts, densityOf(day.coatings[job.coating] ?? null)),
              ] as const,
            ]
          : []),
        ...(ratings.length > 0 ? [[texts.say('why.in.ratings'), ratings.join(', ')] as const] : []),
      ],
      formula: [pumpFormula(view, rig, job, pump), ...headFormula(view, job, pump)].join(' '),
      source: texts.say('why.pressure.source'),
    },
  ];
}

function driveInputs({ texts }: View, rig: Rig, job: Job): readonly (readonly [string, string])[] {
  const air = jobAirBar(rig, job);
  if (air === null || rig.ratio === undefined) return [];
  return [
    [texts.say('why.in.ratio'), texts.say('why.v.ratio', { n: rig.ratio })],
    [texts.say('why.in.air'), texts.say('why.v.bar', { n: air })],
  ];
}

function pumpFormula({ texts }: View, rig: Rig, job: Job, pump: number): string {
  const air = jobAirBar(rig, job);
  const bar = decimals(pump, 1);
  if (air === null || rig.ratio === undefined) return texts.say('why.pressure.set', { bar });
  return texts.say('why.pressure.stall', { ratio: rig.ratio, air, bar });
}

/** The column of paint between pump and gun: on top below the pump (heaviest paint counts), lost above it. */
function headFormula({ shift, texts }: View, job: Job, pump: number): readonly string[] {
  const { liftM } = job;
  if (!liftM) return [];
  const density = densityOf(shift.day.coatings[job.coating] ?? null).high * 1000;
  const head = Math.abs(staticHeadBar(density, liftM));
  const shared = { pump: decimals(pump, 1), density: Math.round(density), head: decimals(head, 2) };
  if (liftM < 0)
    return [texts.say('why.pressure.below', { ...shared, down: -liftM, bar: decimals(pump + head, 1) })];
  const gun = decimals(gunBar({ pumpBar: pump, densityKgPerM3: density, liftM }), 1);
  return [texts.say('why.pressure.above', { ...shared, up: liftM, gun })];
}

function airItem(view: View, used: UsedRig): readonly WhyItem[] {
  const { texts, shift } = view;
  const need = airNeed(shift.day, used);
  if (!need) return [];
  const { ratio, airBar, ambientBar, fluidLPerMin, needLPerMin, haveLPerMin } = need;
  const rig = used.name;
  const needed = wholeUp(needLPerMin);
  const short = airIsShort(need) ? need : null;
  return [
    {
      topic: 'air',
      about: rig,
      result: short
        ? texts.say('why.air.short', { rig, need: needed, have: wholeDown(short.haveLPerMin) })
        : texts.say('why.air.result', { rig, need: needed }),
      inputs: [
        [texts.say('why.in.ratio'), texts.say('why.v.ratio', { n: ratio })],
        [texts.say('why.in.air'), texts.say('why.v.bar', { n: airBar })],
        [texts.say('why.in.tip'), need.tip],
        [texts.say('why.in.ambient'), texts.say('why.v.bar', { n: decimals(ambientBar, 3) })],
        ...(haveLPerMin === null
          ? []
          : [[texts.say('why.in.compressor'), texts.say('why.v.flow', { n: haveLPerMin })] as const]),
      ],
      formula: texts.say('why.air.formula', {
        ratio,
        fluid: decimals(fluidLPerMin, 4),
        air: airBar,
        ambient: decimals(ambientBar, 5),
        need: decimals(needLPerMin, 1),
      }),
      source: texts.say('why.air.source'),
    },
  ];
}
