import { airUp, tenthDown, tenthUp } from '../../facts/round.ts';
import { coatingName, placeKey } from '../../facts/used.ts';
import { type DayVapour, dayVapour, type HourLoad, type LoadPart } from '../../facts/vapour.ts';
import {
  dilutionAirM3PerL,
  molarVolumeL,
  type SolventVapour,
  vapourLitresPerLitre,
} from '../../trade/vapour.ts';
import type { View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Solvent, air and what fills the space; nothing in the open, where the briefing gives no such figure. */
export function whyVapour(view: View): readonly WhyItem[] {
  const { day } = view.shift;
  const found = placeKey(day) === 'open' ? null : dayVapour(day);
  if (!found) return [];
  return [...(found.load ? [airItem(view, found, found.load)] : []), ...fillItem(view, found)];
}

function airItem(view: View, found: DayVapour, load: HourLoad): WhyItem {
  const { texts, shift } = view;
  const { haveM3PerMin: have } = found;
  return {
    topic: 'vapour-air',
    about: '',
    result: texts.say('why.vapour.result', {
      litres: tenthUp(load.litresPerHour),
      air: airUp(load.needM3PerMin),
    }),
    inputs: [
      ...place(view, found),
      [texts.say('why.in.trigger'), texts.say('why.v.percent', { n: shift.day.policy.gunOnPct })],
      [
        texts.say('why.in.space-air'),
        have === null ? texts.say('why.v.not-given') : texts.say('why.v.m3-per-min', { n: have }),
      ],
      ...load.parts.map(
        (part) => [partName(view, part), solventText(view, part.solvent, part.basis)] as const,
      ),
    ],
    formula: load.parts.map((part) => partFormula(view, found, part)).join(' '),
    source: texts.say('why.vapour.source'),
  };
}

function partName({ shift, texts }: View, { job, from }: LoadPart): string {
  return texts.say('why.vapour.part', { coating: coatingName(shift.day, job.coating), area: job.area, from });
}

function partFormula(view: View, found: DayVapour, part: LoadPart): string {
  const { texts } = view;
  const { solvent, job, rate, from } = part;
  const air = dilutionAirM3PerL({ ...found.place, solvent, fractionPct: found.fractionPct });
  const solids = view.shift.day.coatings[job.coating]?.volumeSolids ?? 100;
  const litres = decimals(part.litresPerHour, 2);
  return [
    `${partName(view, part)}:`,
    texts.say('why.vapour.litres', {
      paint: decimals(rate.litresPerHour, 2),
      by: rate.by,
      share: from === 'paint' ? decimals(100 - solids, 2) : job.thinnerPct,
      litres,
    }),
    volumeText(view, found, solvent),
    texts.say('why.vapour.air', {
      pct: found.fractionPct,
      lel: solvent.lelPct,
      vapour: decimals(vapourLitresPerLitre(solvent, found.place), 1),
      exact: decimals(air.exactM3, 1),
      regulatory: decimals(air.regulatoryM3, 1),
      litres,
      air: decimals(part.needM3PerMin, 1),
    }),
  ].join(' ');
}

function fillItem(view: View, found: DayVapour): readonly WhyItem[] {
  const { texts } = view;
  const { spaceM3, fillL, filler, fractionPct: pct } = found;
  if (spaceM3 === null || fillL === null) return [];
  return [
    {
      topic: 'vapour-fill',
      about: '',
      result: texts.say('why.vapour-fill.result', { litres: Math.max(tenthDown(fillL), 0), pct }),
      inputs: [
        ...place(view, found),
        [texts.say('why.in.space'), texts.say('why.v.m3', { n: spaceM3 })],
        [texts.say('why.vapour-fill.filler'), solventText(view, filler, found.fillerBasis)],
      ],
      formula: [
        volumeText(view, found, filler),
        texts.say('why.vapour-fill.formula', {
          space: spaceM3,
          lel: filler.lelPct,
          pct,
          vapour: decimals(vapourLitresPerLitre(filler, found.place), 1),
          litres: decimals(fillL, 3),
        }),
      ].join(' '),
      source: texts.say('why.vapour-fill.source'),
    },
  ];
}

function place({ shift, texts }: View, found: DayVapour): WhyItem['inputs'] {
  return [
    [texts.say('why.in.expected-air'), texts.say('why.v.degrees', { n: found.place.c })],
    [texts.say('why.in.altitude'), texts.say('why.v.metres', { n: shift.day.site.altitudeM })],
    [texts.say('why.in.fraction'), texts.say('why.v.of-lel', { n: found.fractionPct })],
  ];
}

function solventText({ texts }: View, solvent: SolventVapour, basis: 'sheet' | 'worst'): string {
  const { lelPct: lel, vapourDensity: heavy, densityKgPerL: density } = solvent;
  return texts.say('why.v.solvent', { lel, heavy, density, basis });
}

function volumeText({ texts }: View, { place: at }: DayVapour, solvent: SolventVapour): string {
  return texts.say('why.vapour.volume', {
    density: solvent.densityKgPerL,
    heavy: solvent.vapourDensity,
    molar: decimals(molarVolumeL(at), 3),
    vapour: decimals(vapourLitresPerLitre(solvent, at), 1),
  });
}
