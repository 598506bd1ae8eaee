import { flushPlanOf } from '../../facts/flush-plan.ts';
import { tenth, wholeDown } from '../../facts/round.ts';
import { clockReport } from '../../flow/clock-report.ts';
import { type RigClock, rigClocks } from '../../flow/clocks.ts';
import { rigName } from '../../flow/rig-update.ts';
import { MINUTE } from '../../model/time.ts';
import { doseBetween } from '../../trade/dose.ts';
import { type PotLifePoint, potLifeByQ10, potLifeMinutes } from '../../trade/pot-life.ts';
import { clockWords } from '../batch.ts';
import { at, type View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';
import { sunItems } from './sun.ts';

/** More stretches of temperature than this are added up: a warming hose has one every two minutes. */
const STRETCHES = 4;

/** Each clock back to its figures: how much is used up, the pot life at today's paint, and the hose in the sun. */
export function whyClock(view: View): readonly WhyItem[] {
  return Object.keys(view.shift.rigs).flatMap((rig) => {
    const clocks = rigClocks(view.shift, rig);
    return [...clocks.flatMap((clock) => clockItems(view, rig, clock)), ...sunItems(view, rig)];
  });
}

function clockItems(view: View, rig: string, clock: RigClock): readonly WhyItem[] {
  const { shift, texts, now } = view;
  const { mixed, where } = clock;
  const coating = shift.day.coatings[mixed.coating];
  const points = coating?.potLife;
  const spec = shift.day.rigs[rig];
  const report = clockReport(shift.day, rig, clock, now);
  if (!spec || !report) return [];
  const about = texts.say('why.clock.about', { rig: rigName(shift, rig), where, batch: mixed.batch });
  if (!points) {
    const unknown = texts.say('clock.unknown', { coating: coating?.name ?? mixed.coating });
    return [
      {
        topic: 'pot-life',
        about,
        result: unknown,
        inputs: [[texts.say('why.in.sheet-pot-life'), texts.say('why.v.not-given')]],
        formula: texts.say('why.clock.unknown', { time: at(view, mixed.mixedAt) }),
        source: texts.say('why.clock.unknown-source'),
      },
    ];
  }
  const keep = shift.day.policy.reservePct;
  const flush = decimals(flushPlanOf(shift.day, spec).minutes, 1);
  const percent = Math.ceil(report.used * 100);
  const sheet = [...points]
    .sort((x, y) => x.c - y.c)
    .map(({ c, minutes }) => texts.say('why.v.line', { c, minutes }));
  const used = decimals(report.used, 3);
  return [
    {
      topic: 'pot-life',
      about,
      result: texts.say('why.clock.result', { percent, ...clockWords(view, clock) }),
      inputs: [
        [texts.say('why.in.mixed'), texts.say('why.v.at', startOf(view, clock))],
        [texts.say('why.in.sheet-pot-life'), sheet.join(', ')],
        [texts.say('why.in.paint-seen'), seen(view, clock)],
        [texts.say('why.in.reserve'), texts.say('why.v.percent', { n: keep })],
        [texts.say('why.in.flush-takes'), texts.say('why.v.minutes', { n: flush })],
      ],
      formula: [
        texts.say('why.clock.sum', { parts: parts(view, points, clock), used }),
        texts.say('why.clock.rest', {
          keep: decimals(1 - keep / 100, 2),
          flush,
          ...clockWords(view, clock),
        }),
      ].join(' '),
      source: texts.say('why.clock.source'),
    },
    {
      topic: 'pot-life-at',
      about,
      result: texts.say('why.life.result', {
        c: tenth(report.nowC),
        minutes: wholeDown(report.lifeNow.minutes),
      }),
      inputs: [
        [texts.say('why.in.sheet-pot-life'), sheet.join(', ')],
        [texts.say('why.in.paint-now'), texts.say('why.v.celsius', { c: tenth(report.nowC) })],
      ],
      formula: lifeFormula(view, points, report.nowC),
      source: texts.say('why.life.source'),
    },
  ];
}

function startOf(view: View, { mixed }: RigClock) {
  return { time: at(view, mixed.mixedAt), c: tenth(mixed.history[0]?.c ?? Number.NaN) };
}

/** Stretches of one temperature up to now; at least the first. */
function stretches({ now }: View, { mixed }: RigClock) {
  const until = Math.max(now, mixed.mixedAt);
  const steps = mixed.history
    .map((step, i) => ({ from: i === 0 ? mixed.mixedAt : Math.max(step.at, mixed.mixedAt), c: step.c }))
    .filter((step, i, all) => i === 0 || (step.from < until && step.c !== all[i - 1]?.c));
  return steps.map((step, i) => ({ ...step, to: steps[i + 1]?.from ?? until }));
}

function seen(view: View, clock: RigClock): string {
  return stretches(view, clock)
    .slice(-STRETCHES)
    .map(({ from, c }) => view.texts.say('why.v.from', { time: at(view, from), c: tenth(c) }))
    .join(', ');
}

/** What each stretch used up, as a sum a person can follow; stretches long past are one figure. */
function parts(view: View, points: readonly PotLifePoint[], clock: RigClock): string {
  const all = stretches(view, clock);
  const { mixed } = clock;
  const shown = all.slice(-STRETCHES);
  const first = shown[0]?.from ?? mixed.mixedAt;
  const earlier =
    all.length > shown.length
      ? [
          view.texts.say('why.clock.earlier', {
            share: decimals(doseBetween(points, mixed.history, mixed.mixedAt, first), 3),
          }),
        ]
      : [];
  const words = shown.map(({ from, to, c }) => {
    const life = potLifeMinutes(points, c).minutes;
    const minutes = (to - from) / MINUTE;
    return view.texts.say('why.clock.part', {
      minutes: decimals(minutes, 1),
      c: tenth(c),
      life: decimals(life, 1),
      share: decimals(minutes / life, 3),
    });
  });
  return [...earlier, ...words].join(' + ');
}

/** The pot life at `c`, with the figures of the sheet put in. */
function lifeFormula({ texts }: View, points: readonly PotLifePoint[], nowC: number): string {
  const found = potLifeMinutes(points, nowC);
  const sheet = [...points].sort((x, y) => x.c - y.c);
  const coldest = sheet[0];
  const warmest = sheet.at(-1);
  if (!coldest || !warmest) return '';
  const c = tenth(nowC);
  const minutes = decimals(found.minutes, 1);
  switch (found.basis) {
    case 'point':
      return texts.say('why.life.point', { c, minutes });
    case 'colder-held':
      return texts.say('why.life.colder-held', { coldestC: coldest.c, coldestMinutes: coldest.minutes });
    case 'one-point':
      return texts.say('why.life.one-point', {
        c,
        onlyC: warmest.c,
        onlyMinutes: warmest.minutes,
        early: minutes,
        late: decimals(found.lateMinutes ?? found.minutes, 1),
      });
    case 'warmer':
      return texts.say('why.life.warmer', {
        c,
        warmestC: warmest.c,
        warmestMinutes: warmest.minutes,
        halved: decimals(potLifeByQ10(warmest.minutes, warmest.c, nowC), 1),
        line: decimals(onLine(sheet.slice(-2), nowC).minutes, 1),
        minutes,
      });
    case 'between': {
      const above = sheet.findIndex((point) => point.c > nowC);
      const { low, high, share } = onLine(sheet.slice(above - 1, above + 1), nowC);
      return texts.say('why.life.between', {
        lowMinutes: low.minutes,
        highMinutes: high.minutes,
        lowC: low.c,
        highC: high.c,
        c,
        share: decimals(share, 3),
        minutes,
      });
    }
  }
}

function onLine(two: readonly PotLifePoint[], c: number) {
  const [low, high] = two;
  if (!low || !high) throw new Error('a line goes through two points of the sheet');
  const inverse = (celsius: number) => 1 / (celsius + 273.15);
  const share = (inverse(c) - inverse(low.c)) / (inverse(high.c) - inverse(low.c));
  return { low, high, share, minutes: low.minutes * (high.minutes / low.minutes) ** share };
}
