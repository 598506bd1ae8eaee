import { flushPlanOf } from '../facts/flush-plan.ts';
import { litresForRatio, litresForRatioDown } from '../facts/round.ts';
import { conflictsOf, type RigClock, rigClocks } from '../flow/clocks.ts';
import { nameOf } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import { facts, heading, message, note, paragraph } from '../message/build.ts';
import type { Block, Message, Tone } from '../message/message.ts';
import type { Batch } from '../model/shift.ts';
import { MINUTE } from '../model/time.ts';
import { inductionMinutes } from '../trade/induction.ts';
import { basisNotes } from './clock-notes.ts';
import { at, type View } from './context.ts';
import { wetFilmText } from './wet-film.ts';

/** A wait is shown to the minute after its end: at the time we name it must really be over. */
const LAST_MS_OF_MINUTE = MINUTE - 1;

/** The times of one clock as people are told them. */
export function clockWords(view: View, clock: RigClock) {
  const { useBy, startFlushBy, deadAt } = clock.times;
  return { useBy: at(view, useBy), startFlushBy: at(view, startFlushBy), deadAt: at(view, deadAt) };
}

export function clockTone(clock: RigClock, now: number): Tone {
  if (now >= clock.times.startFlushBy) return 'danger';
  return now >= clock.times.useBy - 15 * MINUTE ? 'attention' : 'plain';
}

/** Countdowns to the three times of one clock. */
export function clockBlocks(view: View, clock: RigClock): readonly Block[] {
  const { texts, now } = view;
  const { times } = clock;
  const words = clockWords(view, clock);
  const tone = clockTone(clock, now);
  return [
    { kind: 'countdown', label: texts.say('batch.use-by'), to: times.useBy, clock: words.useBy, tone },
    {
      kind: 'countdown',
      label: texts.say('batch.start-flush-by'),
      to: times.startFlushBy,
      clock: words.startFlushBy,
      tone,
    },
    { kind: 'countdown', label: texts.say('batch.dead-at'), to: times.deadAt, clock: words.deadAt, tone },
  ];
}

/** Said when a batch is logged: the times, what stands in their way, and that nothing buys more of it. */
export function batchMessage(view: View, batch: Batch): Message {
  const { shift, texts } = view;
  const rig = rigName(shift, batch.rig);
  const sheet = shift.day.coatings[batch.coating];
  const coating = sheet?.name ?? batch.coating;
  const clock = rigClocks(shift, batch.rig)[0];
  const summary = clock
    ? clockSentence(view, batch.rig, clock)
    : texts.say('batch.summary-no-clock', { rig, batch: batch.id, litres: batch.litres, coating });
  return message(
    summary,
    clock?.times.tooShort ? 'danger' : 'plain',
    heading(texts.say('batch.title', { rig, batch: batch.id })),
    ...(clock ? clockBlocks(view, clock) : []),
    facts(
      [
        texts.say('batch.mixed'),
        texts.say('batch.mixed-value', {
          litres: batch.litres,
          coating,
          time: at(view, batch.at),
          c: batch.paintC,
          person: nameOf(shift, batch.by),
        }),
      ],
      [
        texts.say('batch.parts'),
        texts.say('batch.parts-value', {
          a: litresForRatio(batch.aL),
          b: litresForRatio(batch.bL),
          thinner: litresForRatioDown(batch.thinnerL),
        }),
      ],
      ...wetFilm(view, batch),
    ),
    ...warnings(view, batch, clock),
    ...(batch.thinnerL > 0 ? [note('plain', texts.say('batch.thinner'))] : []),
  );
}

/** One line for each dry film that this batch may be sprayed to, with the thinner that really went in. */
function wetFilm({ shift, texts }: View, batch: Batch): readonly (readonly [string, string])[] {
  const sheet = shift.day.coatings[batch.coating];
  if (!sheet) return [];
  const jobs = shift.day.entry.jobs.filter((job) => job.rig === batch.rig && job.coating === batch.coating);
  const films = new Set(jobs.map((job) => job.dftUm));
  const thinnerPct = (batch.thinnerL / batch.litres) * 100;
  return [...films].map((dft) => {
    const wet = wetFilmText(texts, sheet, dft, thinnerPct);
    const areas = jobs.filter((job) => job.dftUm === dft).map((job) => job.area);
    return [
      films.size > 1
        ? texts.say('batch.wet-film-of', { areas: areas.join(', ') })
        : texts.say('batch.wet-film'),
      texts.say('batch.wet-film-value', { wet, dft }),
    ];
  });
}

function warnings(view: View, batch: Batch, clock: RigClock | undefined): readonly Block[] {
  const { shift, texts } = view;
  const state = shift.rigs[batch.rig];
  const blocks: Block[] = [];
  if (clock?.times.tooShort) blocks.push(note('danger', texts.say('batch.too-short')));
  const induction = shift.day.coatings[batch.coating]?.induction ?? [];
  if (induction.length > 0) {
    const { minutes, belowTable } = inductionMinutes(induction, batch.paintC);
    const time = at(view, batch.at + minutes * MINUTE + LAST_MS_OF_MINUTE);
    blocks.push(
      note('attention', texts.say(belowTable ? 'batch.induction-cold' : 'batch.induction', { time })),
    );
  }
  if (state?.line && state.pot && state.line.batch !== state.pot.batch && state.renewLitres !== null)
    blocks.push(
      note('attention', texts.say('batch.older', { batch: state.line.batch, litres: state.renewLitres })),
    );
  if (batch.pot === 'on-top') blocks.push(note('attention', texts.say('batch.on-top')));
  if (clock) {
    if (state?.line?.batch !== state?.pot?.batch)
      blocks.push(paragraph(texts.say('batch.governs', { where: clock.where })));
    blocks.push(...basisNotes(view, clock));
    blocks.push(...conflictBlocks(view, batch.rig, clock));
  }
  if (batch.underHolds.length > 0)
    blocks.push(
      note(
        'danger',
        texts.say('batch.under-holds', {
          holds: batch.underHolds.map((kind) => texts.say(`word.hold.${kind}`)).join(', '),
        }),
      ),
    );
  return blocks;
}

/** The three times in one sentence, and what of the day makes the flush earlier: it must not stand two screens further down. */
export function clockSentence(view: View, rig: string, clock: RigClock): string {
  const { shift, texts } = view;
  const named = { rig: rigName(shift, rig), batch: clock.mixed.batch };
  return [
    texts.say('batch.summary', { ...named, ...clockWords(view, clock) }),
    ...conflictTexts(view, rig, clock),
  ].join(' ');
}

/** A break or the end of the shift that this paint runs into. */
export function conflictBlocks(view: View, rig: string, clock: RigClock): readonly Block[] {
  return conflictTexts(view, rig, clock).map((text) => note('attention', text));
}

function conflictTexts(view: View, rig: string, clock: RigClock): readonly string[] {
  const { shift, texts, now } = view;
  return conflictsOf(shift.day, rig, clock, now).map((conflict) =>
    conflict.kind === 'break'
      ? texts.say('batch.break', {
          from: at(view, conflict.from),
          to: at(view, conflict.to),
          by: at(view, conflict.flushBy),
        })
      : texts.say('batch.end', { end: at(view, conflict.endsAt), by: at(view, conflict.flushBy) }),
  );
}

export function flushMinutes({ shift }: View, rig: string): number {
  const spec = shift.day.rigs[rig];
  return spec ? Math.ceil(flushPlanOf(shift.day, spec).minutes) : 0;
}
