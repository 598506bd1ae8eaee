import { loadTexts } from '../../adapters/files/load-texts.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { tasksOf } from '../../src/briefing/task.ts';
import { openShift } from '../../src/flow/day-entry.ts';
import type { Message } from '../../src/message/message.ts';
import type { Shift } from '../../src/model/shift.ts';
import { briefingMessage } from '../../src/views/briefing.ts';

export const loaded = loadTexts();

/** The shift as it is opened when an invented day is posted at its prestart time. */
export function shiftOf({ day, carriedIn }: DayFacts): Shift {
  const briefing = buildBriefing({ day, carriedIn }, null);
  const posted = { type: 'day-posted', day, briefing, carriedIn, previousHead: null } as const;
  return openShift(`${day.site.id}:${day.entry.date}`, posted, day.prestartAt);
}

/** The briefing as one person reads it. */
export function briefingOf(facts: DayFacts, person: string, language: string): Message {
  const shift = shiftOf(facts);
  const view = { shift, texts: loaded.textsFor(language), now: shift.postedAt };
  return briefingMessage(view, tasksOf(facts.day, person));
}
