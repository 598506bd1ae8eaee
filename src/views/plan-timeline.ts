import type { RigDay } from '../facts/plan.ts';
import { tenth } from '../facts/round.ts';
import type { Block, Lane, Segment, SegmentKind, TimeMark } from '../message/message.ts';
import { clockTime, HOUR, type Instant, MINUTE } from '../model/time.ts';
import { joined } from '../trade/plan/spans.ts';
import { at, type View } from './context.ts';

/** The rigs' day as a picture: a lane for each rig, marks at the full hours of the site's clock. */
export function planTimeline(view: View, rigs: readonly RigDay[], list: 'here' | 'beside'): readonly Block[] {
  const { shift, texts } = view;
  const { startsAt, endsAt } = shift.day;
  const lanes = rigs.flatMap((rig) => lane(view, rig));
  if (lanes.length === 0) return [];
  return [
    {
      kind: 'timeline',
      label: texts.say('plan.timeline', { from: at(view, startsAt), to: at(view, endsAt) }),
      listLabel: texts.say('plan.timeline-list'),
      list,
      from: startsAt,
      to: endsAt,
      marks: hourMarks(view),
      lanes,
    },
  ];
}

/** More than these would run into each other on a phone. */
const MOST_MARKS = 13;

function hourMarks({ shift }: View): readonly TimeMark[] {
  const { startsAt, endsAt, site } = shift.day;
  const past = Number(clockTime(startsAt, site.timeZone).slice(3)) * MINUTE;
  const first = past === 0 ? startsAt : startsAt - past + HOUR;
  const count = Math.max(0, Math.floor((endsAt - first) / HOUR) + 1);
  const every = count > MOST_MARKS ? 2 : 1;
  return Array.from({ length: Math.ceil(count / every) }, (_, i) => first + i * every * HOUR).map((mark) => ({
    at: mark,
    label: clockTime(mark, site.timeZone),
  }));
}

function lane(view: View, rig: RigDay): readonly Lane[] {
  if (rig.plan === null) return [];
  const { startsAt, endsAt, breaks } = view.shift.day;
  const segment = (
    kind: SegmentKind,
    from: Instant,
    to: Instant,
    label = '',
    mark = '',
  ): readonly Segment[] => {
    const [begin, end] = [Math.max(from, startsAt), Math.min(to, endsAt)];
    if (begin >= end) return [];
    const clock = `${at(view, begin)}–${at(view, end)}`;
    return [{ kind, from: begin, to: end, name: view.texts.say(`plan.seg.${kind}`), clock, label, mark }];
  };
  const segments = [
    ...rig.plan.batches.flatMap((batch, i) => {
      const label = view.texts.say('plan.mark', { n: i + 1, litres: tenth(batch.litres) });
      return [
        ...segment('mix', batch.mixFrom, batch.mixTo, label),
        ...segment('stand', batch.mixTo, batch.ready, label),
        ...segment('spray', batch.sprayFrom, batch.sprayTo, label, String(i + 1)),
      ];
    }),
    ...rig.plan.flushes.flatMap(({ from, to }) => segment('flush', from, to)),
    ...closedTimes(rig).flatMap(({ from, to }) => segment('hold', from, to)),
    ...breaks.flatMap(({ from, to }) => segment('break', from, to)),
  ];
  return [{ label: rig.name, segments: segments.sort((x, y) => x.from - y.from || x.to - y.to) }];
}

/** When none of a rig's jobs can be sprayed; a time closed to one job only is said in words. */
function closedTimes(rig: RigDay): readonly { readonly from: Instant; readonly to: Instant }[] {
  if (rig.plan === null) return [];
  const each = rig.input.jobs.map(({ closed }) => joined(closed));
  return each.reduce((common, spans) =>
    common.flatMap((one) =>
      spans
        .map(({ from, to }) => ({ from: Math.max(from, one.from), to: Math.min(to, one.to) }))
        .filter(({ from, to }) => to > from),
    ),
  );
}
