import { type RigClock, rigClocks } from '../../flow/clocks.ts';
import { nameOf } from '../../flow/decision.ts';
import { tempAt } from '../../flow/mixed-history.ts';
import { rigName } from '../../flow/rig-update.ts';
import { asCounted, openStand } from '../../flow/standing.ts';
import { buttons, message, note, paragraph } from '../../message/build.ts';
import type { Block } from '../../message/message.ts';
import type { EventOf } from '../../model/event.ts';
import type { Shift } from '../../model/shift.ts';
import { MINUTE } from '../../model/time.ts';
import { batchMessage, clockWords } from '../batch.ts';
import { measureHose, sunText } from '../clock-notes.ts';
import { conditionsMessage } from '../conditions.ts';
import { at, type View } from '../context.ts';
import { type Announce, crew, line, toForeman } from './say.ts';

/** Readings, batches, temperatures, pauses: what moves the clocks. */
export const paintSays = {
  'reading-taken': (_body, { event }) => [
    { key: `reading:${event.seq}`, to: crew, words: conditionsMessage },
  ],
  'reading-voided': ({ takenAt, by, reason }, { event }) => [
    line(`reading-voided:${event.seq}`, 'attention', (view) =>
      view.texts.say('reading.voided', { time: at(view, takenAt), person: nameOf(view.shift, by), reason }),
    ),
  ],
  'batch-mixed': ({ batch }, { after }) => {
    const say = { key: `batch:${batch.id}`, words: (view: View) => batchMessage(view, batch) };
    if (batch.underHolds.length === 0) return [{ ...say, to: crew }];
    return [{ ...say, to: crew }, ...toForeman(after, { ...say, urgency: 'bell' })];
  },
  'mix-temperature-mended': ({ rig, batch, c, before, by }, { after, event }) => [
    line(`mended:${event.seq}`, 'attention', (view) => {
      const clock = rigClocks(after, rig)[0];
      const words = clock ? clockWords(view, clock) : { useBy: '–', startFlushBy: '–', deadAt: '–' };
      const person = nameOf(view.shift, by);
      return view.texts.say('temp.mended', { rig: rigName(after, rig), batch, c, before, person, ...words });
    }),
  ],
  'temperature-noted': (body, happened) => [
    line(`temperature:${happened.event.seq}`, 'attention', (view) =>
      temperatureText(view, body, happened.before),
    ),
  ],
  paused: ({ rig }, { before, after, event }) => [
    {
      key: `pause:${rig}`,
      to: crew,
      words: (view) => {
        const summary = pauseText(view, rig, before, after, event.at);
        return message(summary, 'attention', paragraph(summary), ...pauseInSun(view, after, rig, event.at));
      },
    },
  ],
  resumed: ({ rig }, { after, event }) => [
    line(`pause:${rig}`, isPast(after, rig, event.at) ? 'danger' : 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const name = rigName(after, rig);
      const estimated = sunText({ ...view, shift: after, now: event.at }, rig);
      const also = estimated === null ? '' : ` ${estimated}`;
      if (clock && event.at >= clock.times.useBy)
        return view.texts.say('pause.past', { rig: name, ...clockWords(view, clock) }) + also;
      if (!clock) return view.texts.say('pause.resumed-no-clock', { rig: name });
      return view.texts.say('pause.resumed', { rig: name, ...clockWords(view, clock) }) + also;
    }),
  ],
  'pot-emptied': ({ rig }, { after, event }) => [
    line(`pot-empty:${event.seq}`, 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const name = rigName(after, rig);
      if (!clock) return view.texts.say('pot.empty-no-clock', { rig: name });
      return view.texts.say('pot.empty', { rig: name, ...clockWords(view, clock) });
    }),
  ],
  'line-renewed': ({ rig }, { after, event }) => [
    line(`renewed:${event.seq}`, 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const batch = after.rigs[rig]?.line?.batch ?? '';
      const none = { useBy: '–', startFlushBy: '–', deadAt: '–' };
      return view.texts.say('pot.renewed', {
        rig: rigName(after, rig),
        batch,
        ...(clock ? clockWords(view, clock) : none),
      });
    }),
  ],
} satisfies {
  readonly [T in
    | 'reading-taken'
    | 'reading-voided'
    | 'batch-mixed'
    | 'mix-temperature-mended'
    | 'temperature-noted'
    | 'paused'
    | 'resumed'
    | 'pot-emptied'
    | 'line-renewed']: Announce<T>;
};

function pauseText(view: View, rig: string, before: Shift | null, after: Shift, pausedAt: number): string {
  const clock = rigClocks(after, rig)[0];
  const name = rigName(after, rig);
  if (!clock) return view.texts.say('pause.no-clock', { rig: name });
  const words = { rig: name, ...clockWords(view, clock) };
  if (pausedAt < clock.times.useBy) return view.texts.say('pause.summary', words);
  // Nothing is past but by what the sun is expected to do from now on.
  const known = before && !isPast(before, rig, pausedAt);
  return known ? view.texts.say('pause.sun-now', words) : view.texts.say('pause.past', words);
}

/** How warm a pause in the sun is taken to make the hose; people should know it while they can still measure. */
const AHEAD_MINUTES = 15;

function pauseInSun(view: View, after: Shift, rig: string, pausedAt: number): readonly Block[] {
  const line = after.rigs[rig]?.line ?? null;
  if (!line || !openStand(line) || rigClocks(after, rig).length === 0) return [];
  const c = Math.ceil(tempAt(asCounted(line), pausedAt + AHEAD_MINUTES * MINUTE));
  return [
    note('attention', view.texts.say('pause.sun', { c, minutes: AHEAD_MINUTES })),
    ...buttons(measureHose(view, rig)),
  ];
}

function isPast(shift: Shift, rig: string, now: number): boolean {
  return rigClocks(shift, rig).some((clock) => now >= clock.times.useBy);
}

function temperatureText(view: View, body: EventOf<'temperature-noted'>, before: Shift | null): string {
  const { shift, texts } = view;
  const rig = rigName(shift, body.rig);
  const now = rigClocks(shift, body.rig)[0];
  const was = before ? rigClocks(before, body.rig)[0] : undefined;
  const where = body.where === 'pot' ? 'pot' : 'hose';
  if (!now || !was) return texts.say('temp.no-clock', { rig, c: body.c });
  const words = clockWords(view, now);
  const { useBy } = words;
  const earlier = at(view, was.times.useBy);
  if (body.basis === 'felt-warm')
    return texts.say('temp.warm', {
      rig,
      c: body.c,
      before: earlier,
      moved: useBy === earlier ? 'no' : 'yes',
      ...words,
    });
  if (now.times.useBy === was.times.useBy && now.times.deadAt === was.times.deadAt)
    return texts.say('temp.summary-same', { rig, where, c: body.c, useBy });
  const summary = texts.say('temp.summary', {
    rig,
    where,
    c: body.c,
    before: earlier,
    moved: useBy === earlier ? 'no' : 'yes',
    ...words,
  });
  const why = warmsOn(shift, body.rig) && sooner(now, was) && where === 'hose';
  return why ? `${summary} ${texts.say('temp.warms-on', { c: body.c })}` : summary;
}

/** PL14: the estimate goes on from the reading, in steps begun anew, so that also a cooler one can bring a time forward. */
function warmsOn(shift: Shift, rig: string): boolean {
  return openStand(shift.rigs[rig]?.line ?? null) !== undefined;
}

function sooner(now: RigClock, was: RigClock): boolean {
  return (['useBy', 'startFlushBy', 'deadAt'] as const).some((time) => now.times[time] < was.times[time]);
}
