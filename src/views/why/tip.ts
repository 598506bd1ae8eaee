import { lossPctOf } from '../../facts/job-paint.ts';
import { tenth } from '../../facts/round.ts';
import { sprayEstimate } from '../../facts/spray.ts';
import { rigName, usedRigs } from '../../facts/used.ts';
import { fanState } from '../../flow/test-fan.ts';
import type { Job } from '../../model/day-entry.ts';
import { thinnedSolidsPct } from '../../trade/film.ts';
import { CHART_CD } from '../../trade/tip.ts';
import type { View } from '../context.ts';
import { decimals, densityText } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Flow and m² a minute of each job's tip, and how far a tip is worn by its last test fan. */
export function whyTip(view: View): readonly WhyItem[] {
  return [
    ...view.shift.day.entry.jobs.flatMap((job) => rateItem(view, job)),
    ...usedRigs(view.shift.day).flatMap(({ id, name }) => fanItem(view, id, name)),
  ];
}

function rateItem({ shift, texts }: View, job: Job): readonly WhyItem[] {
  const { day } = shift;
  const sheet = day.coatings[job.coating];
  const found = sheet ? sprayEstimate(day, job) : null;
  if (!sheet || !found) return [];
  const { tip, size, density, m2, ends } = found;
  const lossPct = lossPctOf(day, job);
  const solids = decimals(thinnedSolidsPct(sheet.volumeSolids, job.thinnerPct), 2);
  const film = job.dftUm + (job.profileUm ?? 0);
  const orifice = decimals(size.orificeMm, 3);
  const rig = rigName(day, job.rig);
  // With a density from the sheet both ends are one.
  const shown = density.known ? ends.slice(0, 1) : ends;
  return [
    {
      topic: 'tip',
      about: `${rig}, ${job.area}`,
      result: density.known
        ? texts.say('why.tip.result-one', { rig, area: job.area, m2: tenth(m2.high) })
        : texts.say('why.tip.result', { rig, area: job.area, low: tenth(m2.low), high: tenth(m2.high) }),
      inputs: [
        [texts.say('why.in.tip'), tip],
        [texts.say('why.in.density'), densityText(texts, density)],
        [texts.say('why.in.cd'), String(CHART_CD)],
        [texts.say('why.in.solids'), texts.say('why.v.percent', { n: sheet.volumeSolids })],
        [texts.say('why.in.thinner'), texts.say('why.v.percent', { n: job.thinnerPct })],
        [texts.say('why.in.film'), filmText(texts, job)],
        [texts.say('why.in.loss'), texts.say('why.v.percent', { n: lossPct })],
      ],
      formula: [
        texts.say('why.tip.code', {
          tip,
          first: tip.slice(0, 1),
          fan: decimals(size.fanMm, 0),
          orifice,
        }),
        ...shown.flatMap(({ bar, kgPerL, flow, m2: rate }) => [
          texts.say('why.tip.flow', {
            orifice,
            bar: decimals(bar, 1),
            density: decimals(kgPerL * 1000, 0),
            flow: decimals(flow, 3),
          }),
          texts.say('why.tip.rate', {
            flow: decimals(flow, 3),
            solids,
            film,
            loss: lossPct,
            m2: decimals(rate, 2),
          }),
        ]),
      ].join(' '),
      source: texts.say('why.tip.source'),
    },
  ];
}

function filmText(texts: View['texts'], { dftUm, profileUm }: Job): string {
  if (!profileUm) return texts.say('why.v.film-plain', { dft: dftUm });
  return texts.say('why.v.film', { dft: dftUm, profile: profileUm });
}

function fanItem({ shift, texts }: View, id: string, rig: string): readonly WhyItem[] {
  const state = shift.rigs[id];
  const fan = state ? fanState(shift.day, state) : null;
  if (!fan?.against) return [];
  const percent = decimals(fan.narrowerPct, 1);
  const width = decimals(fan.last.widthMm, 0);
  const against = decimals(fan.against.mm, 0);
  return [
    {
      topic: 'fan',
      about: rig,
      result: texts.say('why.fan.result', { rig, percent }),
      inputs: [
        [texts.say('why.in.tip'), fan.last.tip],
        [
          texts.say(fan.against.what === 'code' ? 'why.in.fan-code' : 'why.in.fan-before'),
          texts.say('why.v.mm', { n: against }),
        ],
      ],
      formula: texts.say('why.fan.formula', {
        width,
        against,
        percent,
        limit: shift.day.policy.fanWornPct,
      }),
      source: texts.say('why.fan.source'),
    },
  ];
}
