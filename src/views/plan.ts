import { solventPerHour } from '../facts/paint-per-hour.ts';
import {
  dayPlan,
  MIX_MINUTES,
  MOST_POT_LITRES,
  type PlannedJob,
  type RigDay,
  SETUP_MINUTES,
} from '../facts/plan.ts';
import type { WeatherGap } from '../facts/plan-weather.ts';
import { tenth, tenthDown, tenthUp, wholeDown } from '../facts/round.ts';
import { heading, list, message, note } from '../message/build.ts';
import type { Block, Message } from '../message/message.ts';
import { at, type View } from './context.ts';
import { holdText } from './holds.ts';
import { areaDown, endsOf, type Planned, planRigBlocks } from './plan-rig.ts';
import { planTimeline } from './plan-timeline.ts';

/** The plan as a message of its own, for the command line. */
export function planMessage(view: View): Message {
  const rigs = dayPlan(view.shift.day, view.shift.carriedIn);
  return planned(view, rigs, blocksOf(view, rigs));
}

/** The plan among everything else of today: picture and warnings at once, each rig's times one tap away. */
export function planPanel(view: View): Message {
  const { texts } = view;
  const rigs = dayPlan(view.shift.day, view.shift.carriedIn);
  return planned(view, rigs, [
    note('plain', texts.say('plan.not-orders')),
    ...planTimeline(view, rigs, 'here'),
    ...solventBlocks(view),
    ...rigs.flatMap((rig): readonly Block[] => [
      ...warnings(view, rig),
      { kind: 'more', label: texts.say('plan.details', { rig: rig.name }), blocks: rigBlocks(view, rig) },
    ]),
  ]);
}

function planned(view: View, rigs: readonly RigDay[], blocks: readonly Block[]): Message {
  const whole = rigs.every(({ plan }) => plan?.feasible ?? false);
  const summary = view.texts.say('plan.summary', { rigs: rigs.map((rig) => inShort(view, rig)).join(' ') });
  return message(summary, whole ? 'plain' : 'attention', ...blocks);
}

/** The plan as a part of the briefing. */
export function planBlocks(view: View): readonly Block[] {
  const rigs = dayPlan(view.shift.day, view.shift.carriedIn);
  return [heading(view.texts.say('plan.title')), ...blocksOf(view, rigs)];
}

function inShort(view: View, rig: RigDay): string {
  const { texts } = view;
  if (rig.plan === null) return texts.say('plan.summary-none', { rig: rig.name });
  const { coveredM2, areaM2 } = rig.plan.totals;
  const ends = endsOf(rig);
  if (rig.plan.feasible && ends)
    return texts.say('plan.summary-fits', { rig: rig.name, flushed: at(view, ends.flushed) });
  return texts.say('plan.summary-fits-not', {
    rig: rig.name,
    covered: areaDown(coveredM2),
    area: tenth(areaM2),
  });
}

function blocksOf(view: View, rigs: readonly RigDay[]): readonly Block[] {
  const { texts } = view;
  return [
    note('plain', texts.say('plan.not-orders')),
    // Each rig's batches and flushes follow in words.
    ...planTimeline(view, rigs, 'beside'),
    ...solventBlocks(view),
    ...rigs.flatMap((rig) => [heading(rig.name), ...warnings(view, rig), ...rigBlocks(view, rig)]),
    { kind: 'more', label: texts.say('plan.counts-on'), blocks: [list(assumptions(view, rigs))] },
  ];
}

function rigBlocks(view: View, rig: RigDay): readonly Block[] {
  if (rig.plan !== null) return planRigBlocks(view, rig);
  const { field, value, valid, why } = rig.refusal;
  const params = { rig: rig.name, field, value: String(value), valid, why };
  return [note('attention', view.texts.say('plan.refused', params))];
}

/** In a closed place: what the plan puts into its air, hour by hour. The caution works out the air that needs. */
function solventBlocks(view: View): readonly Block[] {
  const { shift, texts } = view;
  if (shift.day.entry.surroundings === 'open-air') return [];
  const hours = solventPerHour(shift.day, shift.carriedIn);
  if (hours.length === 0) return [];
  const lines = hours.map(({ from, litres }) =>
    texts.say('plan.solvent-hour', { time: at(view, from), litres: tenthUp(litres) }),
  );
  return [note('attention', `${texts.say('plan.solvent-hours')} ${lines.join(', ')}.`)];
}

/** What a foreman must know before the times: a tag, weather, recoat windows, a tip nobody wrote down. */
function warnings(view: View, rig: RigDay): readonly Block[] {
  const { shift, texts } = view;
  const tagged = shift.rigs[rig.rig]?.tag ? [texts.say('plan.tagged', { rig: rig.name })] : [];
  const found =
    rig.plan === null
      ? []
      : [...gapLines(view, rig), ...rig.jobs.flatMap((job) => jobWarnings(view, rig, job))];
  return [...new Set([...tagged, ...found])].map((text) => note('attention', text));
}

function gapLines(view: View, { jobs }: Planned): readonly string[] {
  const { startsAt, endsAt } = view.shift.day;
  return jobs.flatMap(({ gaps, job }) =>
    gaps
      .filter(({ from, to }) => from < endsAt && to > startsAt)
      .map((gap) => gapLine(view, job.coating, gap)),
  );
}

function gapLine(view: View, coating: string, { from, to, failures }: WeatherGap): string {
  const { startsAt, endsAt } = view.shift.day;
  const misses = failures
    .map((failure) => holdText(view, { kind: 'climate', coating, ...failure }))
    .join(' ');
  const span = { from: at(view, Math.max(from, startsAt)), to: at(view, Math.min(to, endsAt)) };
  return view.texts.say('plan.gap', { ...span, misses });
}

function jobWarnings(view: View, rig: Planned, planned: PlannedJob): readonly string[] {
  const { texts, shift } = view;
  const { startsAt, endsAt } = shift.day;
  const { area } = planned.job;
  const closed = rig.input.jobs[rig.jobs.indexOf(planned)]?.closed ?? [];
  return [
    ...closed
      .filter(({ why, from, to }) => why === 'recoat' && from < endsAt && to > startsAt)
      .map(({ from, to }) =>
        texts.say('plan.recoat-closed', {
          area,
          from: at(view, Math.max(from, startsAt)),
          to: at(view, Math.min(to, endsAt)),
        }),
      ),
    ...(planned.recoatUnknown ? [texts.say('plan.recoat-unknown', { area })] : []),
    ...(planned.rate.tip === null ? [texts.say('plan.no-tip', { area })] : []),
  ];
}

/** What the times stand on, one tap away: nothing in it is a warning. */
function assumptions({ texts, shift }: View, rigs: readonly RigDay[]): readonly string[] {
  const rates = rigs
    .flatMap((rig) => (rig.plan === null ? [] : rig.jobs))
    .map(({ job, rate }) =>
      texts.say('plan.rate', {
        area: job.area,
        rate: tenthDown(rate.litresPerMin * 10) / 10,
        tip: rate.tip ?? 'none',
        bar: wholeDown(rate.bar),
        density: rate.kgPerL,
        known: rate.densityKnown ? 'yes' : 'no',
        on: rate.gunOnPct,
        pump: tenth(rate.pumpLPerMin),
      }),
    );
  return [
    ...rates,
    texts.say('plan.set-up', { setup: SETUP_MINUTES, mix: MIX_MINUTES, pot: MOST_POT_LITRES }),
    texts.say('plan.carried'),
    texts.say('plan.strict'),
    ...(shift.day.entry.weather.sun ? [texts.say('plan.sun')] : []),
  ];
}
