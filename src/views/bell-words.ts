import { flushPatience } from '../flow/bells/flush.ts';
import { chased } from '../flow/bells/people.ts';
import type { BellKind } from '../flow/bells/wanted.ts';
import { rigClocks } from '../flow/clocks.ts';
import { nameOf, namesOf } from '../flow/decision.ts';
import { nextStep } from '../flow/flush.ts';
import { rigName } from '../flow/rig-update.ts';
import { closings } from '../flow/trend.ts';
import type { BellLevel } from '../model/shift.ts';
import { inductionMinutes } from '../trade/induction.ts';
import { clockWords } from './batch.ts';
import { paintBellWords } from './bell-paint.ts';
import { recoatBellWords } from './coats.ts';
import { at, type View } from './context.ts';
import { stepName } from './flush.ts';
import { openTexts } from './open-items.ts';
import { closingWords } from './trend.ts';

/** What a bell needs to be put into words: a ring just made, or one that still waits for an answer. */
export interface RungBell {
  readonly bell: string;
  readonly kind: BellKind;
  readonly rig: string | null;
  readonly person: string | null;
  readonly level: BellLevel;
  readonly scheduledFor: number;
  readonly rangAt: number;
  /** When the ring was made that is being said; later than `rangAt` for a bell that has come back. */
  readonly calledAt: number;
  readonly late: boolean;
  readonly missedRings: number;
}

/** What it says, complete in itself, and what to do. */
export interface BellWords {
  readonly say: string;
  readonly todo: string;
}

export function bellWords(view: View, rung: RungBell): BellWords {
  const { shift, texts } = view;
  const rig = rung.rig === null ? '' : rigName(shift, rung.rig);
  const person = rung.person === null ? '' : nameOf(shift, rung.person);
  const zoneEnd = at(view, shift.day.endsAt);
  switch (rung.kind) {
    case 'unsigned':
      return rung.person === null
        ? unsignedWords(view)
        : {
            say: texts.say('bell.unsigned', { person }),
            todo: texts.say('bell.unsigned-do', { person }),
          };
    case 'concern': {
      const concern = shift.concerns.find(({ id }) => rung.bell === `concern:${id}`);
      const by = concern ? nameOf(shift, concern.by) : '';
      return {
        say: texts.say('bell.concern', { text: concern?.text ?? '' }),
        todo: texts.say('bell.concern-do', { person: by }),
      };
    }
    case 'stop-work':
      return {
        say: texts.say('bell.stop-work', {
          time: shift.stop ? at(view, shift.stop.at) : '',
          text: shift.stop?.text ?? '',
        }),
        todo: texts.say('bell.stop-work-do'),
      };
    case 'reading-due': {
      const last = shift.readings.at(-1);
      return {
        say: texts.say('bell.reading-due', { time: last ? at(view, last.at) : '' }),
        todo: texts.say('bell.reading-due-do'),
      };
    }
    case 'margin-closing': {
      const found = closings(shift).find(({ last }) => rung.bell === `margin-closing:${last.at}`);
      const place = found?.last.place ?? '';
      return {
        say: texts.say('bell.margin-closing', {
          place: place === '' ? '' : `${place}: `,
          closing: found ? closingWords(view, found) : texts.say('reading.closing-past'),
        }),
        todo: texts.say('bell.margin-closing-do'),
      };
    }
    case 'induction-over': {
      const clock = rigClocks(shift, rung.rig ?? '')[0];
      const batch = rung.bell.slice('induction-over:'.length);
      return {
        say: texts.say('bell.induction-over', {
          rig,
          batch,
          useBy: clock ? clockWords(view, clock).useBy : '',
        }),
        todo: texts.say(
          inductionIsCold(view, rung.rig) ? 'bell.induction-over-cold' : 'bell.induction-over-do',
        ),
      };
    }
    case 'fan-due': {
      const last = shift.rigs[rung.rig ?? '']?.fans?.at(-1);
      return {
        say: last
          ? texts.say('bell.fan-due', { rig, width: Math.round(last.widthMm) })
          : texts.say('bell.fan-due-first', { rig }),
        todo: texts.say('bell.fan-due-do'),
      };
    }
    case 'before-break':
    case 'before-end':
    case 'use-by-soon':
    case 'use-by':
    case 'start-flush':
    case 'dead':
      return paintBellWords(view, rung, rung.kind, rig);
    case 'flush-stalled': {
      const flush = shift.rigs[rung.rig ?? '']?.flush;
      const next = flush ? nextStep(flush) : null;
      const minutes = Math.ceil(flushPatience(shift, rung.rig ?? ''));
      return {
        say: texts.say('bell.flush-stalled', {
          rig,
          minutes,
          step: next ? stepName(view, rung.rig ?? '', next) : '',
        }),
        todo: texts.say('bell.flush-stalled-do'),
      };
    }
    case 'recoat-open':
    case 'recoat-closing':
      return recoatBellWords(view, rung);
    case 'shift-end': {
      const open = openTexts(view);
      if (open.length === 0)
        return {
          say: texts.say('bell.shift-end-clear', { end: zoneEnd }),
          todo: texts.say('bell.shift-end-do'),
        };
      return {
        say: texts.say('bell.shift-end', { end: zoneEnd, open: open.join('; ') }),
        todo: texts.say('bell.shift-end-do'),
      };
    }
  }
}

/** BE10: the crew's bell names whoever is chased by now. */
function unsignedWords({ shift, texts, now }: View): BellWords {
  const all = chased(shift);
  const due = all.filter(({ dueAt }) => dueAt <= now);
  const people = namesOf(
    shift,
    (due.length > 0 ? due : all).map(({ person }) => person),
  );
  return { say: texts.say('bell.unsigned-all', { people }), todo: texts.say('bell.unsigned-all-do') };
}

/** Colder than the sheet's coldest line: the standing time is longer than anything the sheet says. */
function inductionIsCold({ shift }: View, rig: string | null): boolean {
  const batch = shift.rigs[rig ?? '']?.batches.at(-1);
  const table = (batch && shift.day.coatings[batch.coating]?.induction) ?? [];
  return batch !== undefined && table.length > 0 && inductionMinutes(table, batch.paintC).belowTable;
}
