import { tenth, tenthDown, tenthUp } from '../../facts/round.ts';
import { type LimitTrend, trendsAt } from '../../flow/trend.ts';
import type { Reading } from '../../model/shift.ts';
import { HOUR } from '../../model/time.ts';
import { dewPointC, saturationHPa, wetBulb } from '../../trade/climate.ts';
import { pressureAtHPa } from '../../trade/pressure-at.ts';
import { at, type View } from '../context.ts';
import { closingWords, trendWords } from '../trend.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** The last reading: its humidity when that came from a wet bulb, dew point and margin, and where they are heading. */
export function whyMargin(view: View): readonly WhyItem[] {
  const last = view.shift.readings.at(-1);
  if (!last) return [];
  return [
    ...humidityItem(view, last),
    marginItem(view, last),
    ...trendsAt(view.shift, last)
      .filter(({ limit, trend }) => limit === 'margin' || trend.goneAt !== null)
      .map((found) => trendItem(view, found)),
  ];
}

function marginItem({ texts }: View, { airC, rhPct, wetC, steelC, place }: Reading): WhyItem {
  const dew = dewPointC(airC, rhPct);
  const g = Math.log(rhPct / 100) + (17.625 * airC) / (243.04 + airC);
  const margin = steelC - dew;
  return {
    topic: 'margin',
    about: place,
    result: texts.say('why.margin.result', {
      steel: tenth(steelC),
      margin: tenthDown(margin),
      dew: tenthUp(dew),
    }),
    inputs: [
      [texts.say('why.in.air-read'), texts.say('why.v.c', { n: airC })],
      [
        texts.say(wetC === null ? 'why.in.rh-read' : 'why.in.rh-wet'),
        texts.say('reading.percent', { p: rhPct }),
      ],
      [texts.say('why.in.steel-read'), texts.say('why.v.c', { n: steelC })],
    ],
    formula: texts.say('why.margin.formula', {
      air: airC,
      rh: rhPct,
      g: decimals(g, 4),
      dew: decimals(dew, 2),
      steel: steelC,
      margin: decimals(margin, 2),
    }),
    source: texts.say('why.margin.source'),
  };
}

function humidityItem({ shift, texts }: View, { airC, wetC, place }: Reading): readonly WhyItem[] {
  if (wetC === null) return [];
  const pressure = pressureAtHPa(shift.day.site.altitudeM);
  const found = wetBulb(airC, wetC, pressure);
  const rh = decimals(found.rhPct, 1);
  return [
    {
      topic: 'humidity',
      about: place,
      result: texts.say('why.humidity.result', { dry: airC, wet: wetC, rh }),
      inputs: [
        [texts.say('why.in.air-read'), texts.say('why.v.c', { n: airC })],
        [texts.say('why.in.wet-bulb'), texts.say('why.v.c', { n: wetC })],
        [texts.say('why.in.pressure-here'), texts.say('why.v.hpa', { n: decimals(pressure, 1) })],
      ],
      formula: texts.say('why.humidity.formula', {
        dry: airC,
        wet: wetC,
        pressure: decimals(pressure, 1),
        es: decimals(found.saturatedHPa, 3),
        ws: decimals(found.saturatedRatio, 6),
        w: decimals(found.ratio, 6),
        vapour: decimals(found.vapourHPa, 3),
        esDry: decimals(saturationHPa(airC), 3),
        rh,
      }),
      source: texts.say('why.humidity.source'),
    },
  ];
}

function trendItem(view: View, found: LimitTrend): WhyItem {
  const { texts } = view;
  const { limit, last, allowed, trend } = found;
  const margin = limit === 'margin';
  const shown = (value: number) => {
    const n = decimals(value, 2);
    return margin ? texts.say('why.v.c', { n }) : texts.say('reading.percent', { p: n });
  };
  const values = trend.taken.map(({ value }) => decimals(value, 2));
  const times = trend.taken.map((point) => point.at);
  const hours = decimals(((times.at(-1) ?? 0) - (times.at(-2) ?? 0)) / HOUR, 2);
  const [before = 0, latest = 0] = values.slice(-2);
  const { goneAt } = trend;
  const rate = decimals(Math.abs(trend.perHour), 2);
  return {
    topic: 'trend',
    about: last.place,
    result: goneAt === null ? marginMoves(view, last) : closingWords(view, { ...found, goneAt }),
    inputs: [
      [texts.say(margin ? 'why.in.margin-least' : 'why.in.rh-most'), shown(allowed)],
      ...trend.taken.map(
        (point) =>
          [
            texts.say(margin ? 'why.in.margin-read' : 'why.in.rh-read'),
            texts.say('why.v.reading', { time: at(view, point.at), value: shown(point.value) }),
          ] as const,
      ),
    ],
    formula: [
      texts.say('why.trend.pair', { last: latest, before, hours, rate: decimals(trend.pairPerHour, 2) }),
      ...(values.length > 2
        ? [texts.say('why.trend.line', { count: values.length, rate: decimals(trend.linePerHour, 2) })]
        : []),
      goneAt === null
        ? texts.say('why.trend.not-gone')
        : texts.say('why.trend.gone', {
            from: margin ? latest : allowed,
            to: margin ? allowed : latest,
            rate,
            hours: decimals((goneAt - last.at) / HOUR, 2),
            time: at(view, last.at),
            gone: at(view, goneAt),
          }),
    ].join(' '),
    source: texts.say('why.trend.source'),
  };
}

function marginMoves(view: View, last: Reading): string {
  return view.texts.say('why.trend.result', { moves: trendWords(view, last) ?? '' });
}
