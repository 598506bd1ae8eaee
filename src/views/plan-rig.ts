import type { PlannedJob, RigDay } from '../facts/plan.ts';
import {
  litresForRatio,
  litresForRatioDown,
  tenth,
  tenthDown,
  tenthUp,
  wholeDown,
  wholeUp,
} from '../facts/round.ts';
import { facts, list, note, paragraph, strong } from '../message/build.ts';
import type { Block, Line } from '../message/message.ts';
import type { Change } from '../trade/plan/changes.ts';
import type { Limit } from '../trade/plan/limits.ts';
import type { PlanBatch, PlanFlush } from '../trade/plan/types.ts';
import { at, type View } from './context.ts';

export type Planned = Extract<RigDay, { readonly plan: object }>;

/** One rig's plan in words: whether it fits, what to mix when, flushes, last mixing times, amounts, limits. */
export function planRigBlocks(view: View, rig: Planned): readonly Block[] {
  const { plan } = rig;
  const batches = plan.batches.map((batch) => batchLine(view, rig, batch));
  const flushes = plan.flushes.map((flush) => flushLine(view, rig, flush));
  const { texts } = view;
  return [
    ...verdict(view, rig),
    ...(batches.length > 0 ? [{ kind: 'list', ordered: true, items: batches } as const] : []),
    ...(flushes.length > 0 ? [list(flushes)] : []),
    ...(plan.batches.some(({ kits, measuredL }) => kits !== null && measuredL > 0)
      ? [note('attention', texts.say('plan.measured'))]
      : []),
    ...plan.batches.flatMap(({ standsLonger }, i) =>
      standsLonger ? [note('attention', texts.say('plan.stands-longer', { n: i + 1 }))] : [],
    ),
    facts(...lastMixFacts(view, rig), ...amounts(view, rig), [
      texts.say('plan.limits'),
      limitsText(view, rig),
    ]),
  ];
}

/** Square metres as people say them: whole from twenty on. What is done is rounded down, what is left up. */
export const areaDown = (m2: number): number => (m2 < 20 ? tenthDown(m2) : wholeDown(m2));
const areaUp = (m2: number): number => (m2 < 20 ? tenthUp(m2) : wholeUp(m2));

/** The last spraying and the last flush of a rig; null when nothing is planned. */
export function endsOf({ plan }: Planned): { readonly done: number; readonly flushed: number } | null {
  const done = plan.batches.at(-1)?.sprayTo;
  return done === undefined ? null : { done, flushed: plan.flushes.at(-1)?.to ?? done };
}

function verdict(view: View, rig: Planned): readonly Block[] {
  const { texts } = view;
  const { plan } = rig;
  const { areaM2, coveredM2 } = plan.totals;
  const ends = endsOf(rig);
  if (plan.reason === null)
    return [
      paragraph(
        strong(
          texts.say('plan.fits', {
            area: tenth(areaM2),
            done: ends ? at(view, ends.done) : '',
            flushed: ends ? at(view, ends.flushed) : '',
          }),
        ),
      ),
    ];
  const [nearest, ...others] = plan.changes;
  const covered = { covered: areaDown(coveredM2), area: tenth(areaM2) };
  return [
    note(
      'attention',
      strong(texts.say('plan.fits-not', { ...covered, why: texts.say(`plan.why.${plan.reason}`) })),
      ' ',
      nearest
        ? texts.say('plan.change-nearest', { change: changeText(view, nearest) })
        : texts.say('plan.change-none'),
      ...others.map((change) => ` ${texts.say('plan.change-or', { change: changeText(view, change) })}`),
    ),
  ];
}

function changeText({ texts }: View, change: Change): string {
  switch (change.kind) {
    case 'earlier':
      return texts.say('plan.change.earlier', { minutes: change.minutes });
    case 'later':
      return texts.say('plan.change.later', { minutes: change.minutes });
    case 'part-kits':
      return texts.say('plan.change.part-kits', { litres: tenthDown(change.litres) });
    case 'faster':
      return texts.say('plan.change.faster', { percent: wholeUp((change.factor - 1) * 100) });
    case 'rig':
      return texts.say('plan.change.rig');
    case 'less':
      return texts.say('plan.change.less', { area: areaUp(change.leftM2) });
  }
}

const jobOf = (rig: Planned, place: number): PlannedJob | undefined => rig.jobs[place];

/** What is to be mixed first and in bold. Coating and area are named only where the rig has more than one. */
function batchLine(view: View, rig: Planned, batch: PlanBatch): Line {
  const { texts } = view;
  const planned = jobOf(rig, batch.job);
  const thinnerL = litresForRatioDown(batch.thinnerL);
  const several = new Set(rig.jobs.map(({ job }) => job.coating)).size > 1;
  const { useBy, startFlushBy, deadAt } = batch;
  const head = {
    mix: at(view, batch.mixFrom),
    litres: litresForRatio(batch.litres),
    several: several ? 'yes' : 'no',
    coating: planned?.sheet.name ?? '',
    pack: useBy === null ? 'one' : 'two',
  };
  const rest = {
    thinner: thinnerL > 0 ? 'yes' : 'no',
    thinnerL,
    from: at(view, batch.sprayFrom),
    to: at(view, batch.sprayTo),
    several: rig.jobs.length > 1 ? 'yes' : 'no',
    area: planned?.job.area ?? '',
  };
  const first = strong(texts.say('plan.batch-mix', head));
  if (useBy === null || startFlushBy === null || deadAt === null)
    return [first, ' ', texts.say('plan.batch-one', rest)];
  const parts = { a: litresForRatio(batch.aL), b: litresForRatio(batch.bL), kits: kitsText(view, batch) };
  const clock = { useBy: at(view, useBy), startFlushBy: at(view, startFlushBy), deadAt: at(view, deadAt) };
  return [
    first,
    ` ${texts.say('plan.batch', { ...rest, ...parts })} ${texts.say('plan.batch-clock', clock)}`,
  ];
}

function kitsText({ texts }: View, { kits, measuredL }: PlanBatch): string {
  if (kits === null) return texts.say('plan.kits-none');
  const measured = measuredL === 0 ? 'no' : kits === 0 ? 'only' : 'with';
  return texts.say('plan.kits', { kits, measured, litres: litresForRatio(measuredL) });
}

function flushLine(
  view: View,
  rig: Planned,
  { from, to, primaryL, secondaryL, job, why }: PlanFlush,
): string {
  return view.texts.say('plan.flush', {
    from: at(view, from),
    to: at(view, to),
    solvent: jobOf(rig, job)?.sheet.flushSolvent ?? '',
    primary: tenthUp(primaryL),
    secondary: tenthUp(secondaryL),
    why: view.texts.say(`plan.flush-why.${why}`),
  });
}

type Pair = readonly [label: string, value: string];

function lastMixFacts(view: View, { plan }: Planned): readonly Pair[] {
  const { texts } = view;
  return plan.lastMixes.map(({ before, at: when, litres, mixBy }): Pair => {
    const time = { time: at(view, when) };
    const label = before === 'break' ? texts.say('plan.last-break', time) : texts.say('plan.last-end', time);
    const size = litresForRatio(litres);
    return [
      label,
      mixBy === null
        ? texts.say('plan.last-none', { litres: size })
        : texts.say('plan.last-value', { time: at(view, mixBy), litres: size }),
    ];
  });
}

function amounts({ texts }: View, rig: Planned): readonly Pair[] {
  if (rig.plan.batches.length === 0) return [];
  const { coatings, primaryL, secondaryL } = rig.plan.totals;
  const paint = coatings.map(({ coating, litres, kits, thinnerL }): Pair => {
    const name = rig.jobs.find(({ job }) => job.coating === coating)?.sheet.name ?? coating;
    const value = texts.say('plan.paint-value', {
      litres: tenth(litres),
      kits: kits ?? 'none',
      thinner: thinnerL > 0 ? 'yes' : 'no',
      thinnerL: litresForRatio(thinnerL),
    });
    return [texts.say('plan.paint', { coating: name }), value];
  });
  const solvent = { primary: tenthUp(primaryL), secondary: tenthUp(secondaryL) };
  return [...paint, [texts.say('plan.solvent'), texts.say('plan.solvent-value', solvent)]];
}

function limitsText(view: View, { plan }: Planned): string {
  if (plan.limits.length === 0) return view.texts.say(`plan.why.${plan.reason ?? 'combined'}`);
  // Beyond the third a limit is only waiting for the others to go.
  return plan.limits
    .slice(0, 3)
    .map((limit) => limitText(view, limit))
    .join('; ');
}

function limitText({ texts }: View, { kind, moreL, soonerMinutes }: Limit): string {
  const limit = texts.say(`plan.limit.${kind}`);
  if (moreL > 0) return texts.say('plan.limit-litres', { limit, litres: tenth(moreL) });
  if (kind === 'flow') return texts.say('plan.limit-flow', { limit, minutes: soonerMinutes });
  return soonerMinutes > 0 ? texts.say('plan.limit-sooner', { limit, minutes: soonerMinutes }) : limit;
}
