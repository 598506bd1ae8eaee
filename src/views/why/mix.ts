import { coldestAirC } from '../../facts/expected-air.ts';
import { litresForRatio, litresForRatioDown, wholeUp } from '../../facts/round.ts';
import { usedCoatings } from '../../facts/used.ts';
import type { CoatingSheet } from '../../model/coating-sheet.ts';
import { inductionMinutes } from '../../trade/induction.ts';
import { splitMix } from '../../trade/mix.ts';
import type { View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** Parts of a full kit and the standing time of each two-pack. */
export function whyMix(view: View): readonly WhyItem[] {
  return usedCoatings(view.shift.day).flatMap(({ sheet }) =>
    sheet ? [...kitItem(view, sheet), ...standItem(view, sheet)] : [],
  );
}

function kitItem({ texts }: View, sheet: CoatingSheet): readonly WhyItem[] {
  const { kitLitres: kit, mixRatio: ratio } = sheet;
  if (kit === undefined || !ratio) return [];
  const most = sheet.thinner?.maxPercent ?? 0;
  const split = splitMix({ ratioA: ratio.a, ratioB: ratio.b, mixedLitres: kit, thinnerPct: most });
  const parts = { a: litresForRatio(split.aL), b: litresForRatio(split.bL) };
  return [
    {
      topic: 'kit',
      about: sheet.name,
      result: texts.say('why.kit.result', { coating: sheet.name, kit, ...parts }),
      inputs: [
        [texts.say('why.in.kit'), texts.say('why.v.litres', { n: kit })],
        [texts.say('why.in.mix-ratio'), `${ratio.a} : ${ratio.b}`],
      ],
      formula: [
        texts.say('why.kit.formula', { kit, ratioA: ratio.a, ratioB: ratio.b, ...parts }),
        texts.say('why.kit.thinner', { kit, most, litres: litresForRatioDown(split.thinnerL) }),
      ].join(' '),
      source: texts.say('why.kit.source'),
    },
  ];
}

function standItem({ shift, texts }: View, sheet: CoatingSheet): readonly WhyItem[] {
  if (sheet.induction.length === 0) return [];
  const c = coldestAirC(shift.day);
  const found = inductionMinutes(sheet.induction, c);
  const lines = [...sheet.induction].sort((x, y) => x.c - y.c);
  const upper = lines.find((row) => row.c >= c);
  const lower = lines.findLast((row) => row.c < c);
  const minutes = decimals(found.minutes, 1);
  const between =
    upper && lower
      ? texts.say('why.stand.between', {
          high: lower.minutes,
          low: upper.minutes,
          c,
          from: lower.c,
          to: upper.c,
          minutes,
        })
      : texts.say('why.stand.on');
  return [
    {
      topic: 'standing',
      about: sheet.name,
      result: texts.say('why.stand.result', { coating: sheet.name, minutes: wholeUp(found.minutes), c }),
      inputs: [
        [texts.say('why.in.expected-air'), texts.say('why.v.degrees', { n: c })],
        ...lines.map(
          (row) =>
            [
              texts.say('why.in.induction'),
              texts.say('why.v.at-degrees', { minutes: row.minutes, c: row.c }),
            ] as const,
        ),
      ],
      formula: found.belowTable ? texts.say('why.stand.below', { c: lines[0]?.c ?? c }) : between,
      source: texts.say('why.stand.source'),
    },
  ];
}
