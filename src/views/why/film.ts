import { jobPaint } from '../../facts/job-paint.ts';
import { wholeUp } from '../../facts/round.ts';
import type { CoatingSheet } from '../../model/coating-sheet.ts';
import type { Job } from '../../model/day-entry.ts';
import {
  extraPctFromLossPct,
  spreadingRateFt2PerUsGallon,
  spreadingRateM2PerL,
  wetFilmUm,
} from '../../trade/film.ts';
import type { View } from '../context.ts';
import { wetFilmText } from '../wet-film.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Wet film and litres of each job. */
export function whyFilm(view: View): readonly WhyItem[] {
  const { day } = view.shift;
  return day.entry.jobs.flatMap((job) => {
    const sheet = day.coatings[job.coating];
    return sheet ? [wetFilmItem(view, job, sheet), litresItem(view, job, sheet)] : [];
  });
}

function wetFilmItem({ texts }: View, job: Job, sheet: CoatingSheet): WhyItem {
  const { dft } = sheet;
  const { volumeSolids: solids } = sheet;
  const { dftUm, thinnerPct: thinner } = job;
  const wet = (dry: number) => decimals(wetFilmUm(dry, solids, thinner), 1);
  return {
    topic: 'wet-film',
    about: job.area,
    result: texts.say('why.wet-film.result', {
      area: job.area,
      wet: wetFilmText(texts, sheet, dftUm, thinner),
      dft: dftUm,
    }),
    inputs: [
      [texts.say('why.in.film'), texts.say('why.v.film', { dft: dftUm, profile: job.profileUm ?? 0 })],
      [texts.say('why.in.solids'), texts.say('why.v.percent', { n: solids })],
      [texts.say('why.in.thinner'), texts.say('why.v.percent', { n: thinner })],
      [
        texts.say('why.in.range'),
        dft ? texts.say('why.v.um-range', { ...dft }) : texts.say('why.v.not-given'),
      ],
    ],
    formula: [
      texts.say('why.wet-film.formula', { dft: dftUm, thinner, solids, wet: wet(dftUm) }),
      ...(dft
        ? [
            texts.say('why.wet-film.range', {
              ...dft,
              thinner,
              solids,
              least: wet(dft.min),
              most: wet(dft.max),
            }),
          ]
        : []),
    ].join(' '),
    source: texts.say('why.wet-film.source'),
  };
}

function litresItem({ shift, texts }: View, job: Job, sheet: CoatingSheet): WhyItem {
  const { volumeSolids: solids } = sheet;
  const { dftUm, areaM2 } = job;
  const { paintL, lossPct: loss, profileUm: profile } = jobPaint(shift.day, job, sheet);
  return {
    topic: 'litres',
    about: job.area,
    result: texts.say('why.litres.result', { area: job.area, litres: wholeUp(paintL), loss }),
    inputs: [
      [texts.say('why.in.area'), texts.say('why.v.area', { n: areaM2 })],
      [texts.say('why.in.film'), texts.say('why.v.film', { dft: dftUm, profile })],
      [texts.say('why.in.solids'), texts.say('why.v.percent', { n: solids })],
      [texts.say('why.in.loss'), texts.say('why.v.percent', { n: loss })],
    ],
    formula: [
      texts.say('why.litres.formula', {
        area: areaM2,
        dft: dftUm,
        profile,
        solids,
        loss,
        litres: decimals(paintL, 1),
      }),
      texts.say('why.litres.extra', { loss, extra: decimals(extraPctFromLossPct(loss), 1) }),
      texts.say('why.litres.rate', {
        theory: decimals(spreadingRateM2PerL(dftUm, solids), 2),
        theoryUs: decimals(spreadingRateFt2PerUsGallon(dftUm, solids), 0),
        practical: decimals(spreadingRateM2PerL(dftUm, solids, loss), 2),
        practicalUs: decimals(spreadingRateFt2PerUsGallon(dftUm, solids, loss), 0),
      }),
    ].join(' '),
    source: texts.say('why.litres.source'),
  };
}
