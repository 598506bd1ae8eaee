import { potLifePoints, potLifeUnknown } from '../facts/pot-life-points.ts';
import { clockReport, WARMER_BY_C } from '../flow/clock-report.ts';
import { type RigClock, rigClocks } from '../flow/clocks.ts';
import { estimatedC, openStand } from '../flow/standing.ts';
import { buttons, note } from '../message/build.ts';
import type { Block, Button } from '../message/message.ts';
import { potLifeMinutes } from '../trade/pot-life.ts';
import { at, type View } from './context.ts';

/** What the times of a clock rest on where the sheet itself says nothing: estimated, bounded, or held. */
export function basisNotes({ shift, texts, now }: View, clock: RigClock): readonly Block[] {
  const sheet = shift.day.coatings[clock.mixed.coating];
  if (potLifeUnknown(sheet))
    return [note('danger', texts.say('clock.unknown', { coating: sheet?.name ?? clock.mixed.coating }))];
  const points = potLifePoints(sheet);
  if (!points) return [];
  const { bases } = clock.times;
  const notes: Block[] = [];
  const warmestPoint = Math.max(...points.map(({ c }) => c));
  if (bases.includes('one-point')) {
    const ahead = clock.mixed.history.filter(
      (step, i, all) => (all[i + 1]?.at ?? Number.POSITIVE_INFINITY) > now && step.c > warmestPoint,
    );
    const c = Math.ceil(
      ahead[0]?.c ?? Math.max(...clock.mixed.history.map((step) => step.c), warmestPoint + 1),
    );
    const { minutes, lateMinutes } = potLifeMinutes(points, c);
    notes.push(
      note(
        'attention',
        texts.say('clock.one-point', {
          c,
          early: Math.floor(minutes),
          late: Math.floor(lateMinutes ?? minutes),
        }),
      ),
    );
  }
  if (bases.includes('warmer')) notes.push(note('plain', texts.say('clock.beyond', { c: warmestPoint })));
  if (bases.includes('colder-held')) notes.push(note('plain', texts.say('batch.colder')));
  return notes;
}

/** PL16: one line on what warmth would cost, by the clock that governs, while the flush is still ahead. */
export function ifWarmerNotes(view: View, rig: string): readonly Block[] {
  const { shift, texts, now } = view;
  const clock = rigClocks(shift, rig)[0];
  const report = clock && clockReport(shift.day, rig, clock, now);
  if (!report?.ifWarmer || now >= report.clock.times.startFlushBy) return [];
  const by = at(view, report.clock.times.startFlushBy);
  const sooner = at(view, report.ifWarmer.startFlushBy);
  const warmer = WARMER_BY_C;
  if (report.ifWarmer.startFlushBy <= now)
    return [note('plain', texts.say('clock.if-warmer-now', { warmer, by }))];
  return sooner === by ? [] : [note('plain', texts.say('clock.if-warmer', { warmer, sooner, by }))];
}

/** PL12: the line is counted by an estimate; what would put that right is beside it. */
export function sunNotes(view: View, rig: string): readonly Block[] {
  const text = sunText(view, rig);
  if (text === null) return [];
  const press = view.shift.status === 'open' ? buttons(measureHose(view, rig)) : [];
  return [note('attention', text), ...press];
}

/** That the line's temperature is estimated, and how warm it is counted; null while it is not. */
export function sunText({ shift, texts, now }: View, rig: string): string | null {
  const line = shift.rigs[rig]?.line;
  const c = line && estimatedC(line, now);
  if (!line || c === null || c === undefined || !rigClocks(shift, rig).some(({ where }) => where === 'line'))
    return null;
  return texts.say(openStand(line) ? 'clock.sun-standing' : 'clock.sun-stood', { c: Math.ceil(c) });
}

export function measureHose({ texts }: View, rig: string): Button {
  const action = { kind: 'open', form: { id: 'hose-temperature', about: { rig } } } as const;
  return { label: texts.say('today.press-hose-temp'), tone: 'plain', action };
}
