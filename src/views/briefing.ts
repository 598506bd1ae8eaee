import type { Task } from '../briefing/task.ts';
import { jobPaint } from '../facts/job-paint.ts';
import { litresForRatioDown, tenthDown, wholeUp } from '../facts/round.ts';
import { nameOf, namesOf } from '../flow/decision.ts';
import { plannedPressure, rigsInUse, unsigned } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { buttons, facts, heading, list, message, note, paragraph, strong } from '../message/build.ts';
import type { Block, Button, CheckItem, Message } from '../message/message.ts';
import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Job } from '../model/day-entry.ts';
import { cautionsInOrder, injectionFooter } from './cautions.ts';
import { at, type View } from './context.ts';
import { dayDifference } from './day-difference.ts';
import { planBlocks } from './plan.ts';
import { solventLines } from './spray.ts';
import { uncheckedBlocks } from './unchecked.ts';
import { wetFilmText } from './wet-film.ts';

/** The whole prestart briefing: what today is, what can kill today in that order, who signs. One's own tasks first. */
export function briefingMessage(view: View, tasks: readonly Task[] = []): Message {
  const { shift, texts } = view;
  const { briefing, day } = shift;
  return message(
    briefingSummary(view),
    'plain',
    heading(texts.say('brief.title', { site: day.site.name, date: shift.date })),
    ...lateness(view),
    ...changesSince(view),
    ...dayBlocks(view),
    ...uncheckedBlocks(view),
    ...cautionsInOrder(view, briefing.cautions, tasks),
    ...planBlocks(view),
    heading(texts.say('brief.sign-list')),
    signList(view),
    injectionFooter(view),
    note('plain', texts.say('brief.footer')),
    ...buttons(...briefPresses(view)),
  );
}

export function briefingSummary({ shift, texts }: View): string {
  const { revision, changed, cautions } = shift.briefing;
  return revision > 1
    ? texts.say('brief.summary-changed', { revision, count: changed.length })
    : texts.say('brief.summary', { date: shift.date, revision, count: cautions.length });
}

export const briefPresses = ({ texts }: View): readonly Button[] => [
  { label: texts.say('today.people-sign'), tone: 'main', action: { kind: 'show', page: 'sign-off' } },
  {
    label: texts.say('today.press-concern'),
    tone: 'plain',
    action: { kind: 'open', form: { id: 'raise-concern', about: {} } },
  },
];

/** What is different from the day people had heard of. */
export function changesSince({ shift, texts }: View): readonly Block[] {
  const { heardBefore, day } = shift;
  const changes = heardBefore ? dayDifference({ texts, names: day }, heardBefore, day.entry) : [];
  return changes.length === 0 ? [] : [heading(texts.say('change.since')), list(changes)];
}

export function lateness(view: View): readonly Block[] {
  const { shift, texts } = view;
  const { prestartAt } = shift.day;
  const late =
    shift.briefing.revision === 1 &&
    shift.issuedAt !== null &&
    shift.issuedAt - Math.max(prestartAt, shift.postedAt) > 60_000;
  return late ? [note('attention', texts.say('brief.late', { time: at(view, prestartAt) }))] : [];
}

/** The day in facts: hours, place, weather, jobs with film and litres. */
export function dayBlocks(view: View): readonly Block[] {
  const { shift, texts } = view;
  const { entry, coatings } = shift.day;
  const { weather } = entry;
  const expected = { air: weather.airC, rh: weather.rhPct };
  const breaks = entry.breaks.map(({ from, to }) => `${from}–${to}`).join(', ') || texts.say('word.none');
  return [
    facts(
      [texts.say('brief.hours'), texts.say('brief.hours-value', { start: entry.start, end: entry.end })],
      [texts.say('brief.breaks'), breaks],
      [texts.say('brief.place'), texts.say(`word.surroundings.${entry.surroundings}`)],
      [
        texts.say('brief.weather'),
        weather.sun ? texts.say('brief.weather-sun', expected) : texts.say('brief.weather-value', expected),
      ],
    ),
    heading(texts.say('brief.jobs')),
    ...entry.jobs.map((job) => {
      const sheet = coatings[job.coating];
      return paragraph(
        strong(jobName(view, job)),
        ' ',
        ...(sheet ? [jobFilm(view, job, sheet), ' '] : []),
        jobPeople(view, job),
      );
    }),
    ...solventBlocks(view),
    ...(entry.notes ? [note('plain', strong(`${texts.say('brief.notes')}: `), entry.notes)] : []),
  ];
}

/** What is painted with what. */
export const jobName = ({ shift, texts }: View, { area, coating, coat }: Job): string =>
  texts.say('brief.job', {
    area,
    coating: shift.day.coatings[coating]?.name ?? coating,
    coat: texts.say(`word.coat.${coat}`),
  });

/** With which rig, and by whom. */
export const jobPeople = ({ shift, texts }: View, { rig, sprayers, mixers }: Job): string =>
  texts.say('brief.job-value', {
    rig: rigName(shift, rig),
    sprayers: namesOf(shift, sprayers),
    mixers: namesOf(shift, mixers),
  });

/** What to have at each rig for its flushes, before the day begins. */
function solventBlocks(view: View): readonly Block[] {
  const lines = solventLines(view);
  return lines.length === 0 ? [] : [heading(view.texts.say('spray.solvent')), list(lines)];
}

/** Dry and wet film, area, and what the job uses up. A job whose coating the day does not hold has no such figures. */
function jobFilm({ shift, texts }: View, job: Job, sheet: CoatingSheet): string {
  const paint = jobPaint(shift.day, job, sheet);
  return texts.say('brief.job-film', {
    dft: job.dftUm,
    wet: wetFilmText(texts, sheet, job.dftUm, job.thinnerPct),
    area: job.areaM2,
    litres: wholeUp(paint.paintL),
    thinned: job.thinnerPct > 0 ? 'yes' : 'no',
    thinner: paint.thinnerL < 0.1 ? litresForRatioDown(paint.thinnerL) : tenthDown(paint.thinnerL),
    loss: paint.lossPct,
  });
}

/** Who has signed, when, and who stood beside. */
export function signList(view: View): Block {
  const { shift, texts } = view;
  const missing = new Set(unsigned(shift));
  const items = shift.day.crew.map((id): CheckItem => {
    const last = shift.people[id]?.signOffs.at(-1);
    const name = { kind: 'person', id, name: nameOf(shift, id) } as const;
    if (missing.has(id)) return { state: 'open', line: [name, `: ${texts.say('brief.not-signed')}`] };
    const time = last ? at(view, last.at) : '';
    const how = last?.witnessedBy
      ? texts.say('brief.signed-witnessed', { time, witness: nameOf(shift, last.witnessedBy) })
      : texts.say('brief.signed', { time });
    return { state: 'done', line: [name, `: ${how}`] };
  });
  return { kind: 'checklist', items };
}

/** "Rig 1: up to 225 bar, Rig 2: ..." for the emergency card: what a doctor asks first. */
export function pressureList({ shift, texts }: View): string {
  return rigsInUse(shift)
    .map((rig) => {
      const bar = plannedPressure(shift.day, rig);
      const value =
        bar === null
          ? texts.say('today.rig-pressure-unknown')
          : texts.say('today.rig-pressure-value', { bar: wholeUp(bar) });
      return `${rigName(shift, rig)} ${value}`;
    })
    .join(', ');
}
