import type { Briefing } from '../briefing/caution.ts';
import { KIND_NOT_KNOWN } from '../briefing/kind.ts';
import type { CarryOver, Day } from '../model/day.ts';
import type { DayEntry } from '../model/day-entry.ts';
import type { EventBody } from '../model/event.ts';
import type { Shift } from '../model/shift.ts';
import { policySchema } from '../model/site.ts';
import { HOUR } from '../model/time.ts';

/**
 * What an older Potbell stored has no field that came later. Days, readings and carry-overs are completed when they are
 * read, so that an update in the middle of a shift goes on with it. What is stored is not rewritten: its seals hold.
 */

const policy = policySchema.parse({});

/** A day as an older Potbell may have stored it: the same values, with what was meant before there was a field for it. */
export function completeDay(day: Day): Day {
  const rigs = Object.entries(day.rigs).map(([id, rig]) => [
    id,
    { ...rig, hoseColour: rig.hoseColour ?? 'dark', components: rig.components ?? 1 },
  ]);
  return {
    ...day,
    entry: completeEntry(day.entry),
    site: { ...day.site, altitudeM: day.site.altitudeM ?? 0 },
    policy: { ...policy, ...day.policy },
    rigs: Object.fromEntries(rigs),
  };
}

function completeEntry(entry: DayEntry): DayEntry {
  return { ...entry, forecast: entry.forecast ?? [] };
}

/** A coat was stored with its last batch only; that its first was a shift earlier closes its window sooner, never later. */
const COAT_BEGAN_BEFORE = 12 * HOUR;

function completeCarryOver(carried: CarryOver): CarryOver {
  const coats = carried.coats.map((coat) => ({
    ...coat,
    firstAt: coat.firstAt ?? coat.at - COAT_BEGAN_BEFORE,
    steel: coat.steel ?? [],
  }));
  return { ...carried, coats };
}

function completeReading<Reading extends { readonly wbgtC: number | null }>(reading: Reading): Reading {
  return { ...reading, wbgtC: reading.wbgtC ?? null };
}

/** Cautions once had neither kind nor task: everybody's, and nothing is called new on the day of the update or after it. */
function completeBriefing(briefing: Briefing): Briefing {
  const cautions = briefing.cautions.map((caution) => ({
    ...caution,
    kind: caution.kind ?? KIND_NOT_KNOWN,
    tasks: caution.tasks ?? ('everybody' as const),
    because: caution.because ?? [],
    habit: caution.habit ?? false,
  }));
  return { ...briefing, cautions, fresh: briefing.fresh ?? [] };
}

export function completeEvent(body: EventBody): EventBody {
  if (body.type === 'day-changed')
    return { ...body, day: completeDay(body.day), briefing: completeBriefing(body.briefing) };
  if (body.type === 'carried-over') {
    const briefing = completeBriefing(body.briefing);
    return { ...body, carriedIn: completeCarryOver(body.carriedIn), briefing };
  }
  if (body.type === 'reading-taken') return { ...body, reading: completeReading(body.reading) };
  if (body.type !== 'day-posted') return body;
  const { day, carriedIn, briefing } = body;
  return {
    ...body,
    day: completeDay(day),
    carriedIn: carriedIn && completeCarryOver(carriedIn),
    briefing: completeBriefing(briefing),
  };
}

/** A stored state as an older Potbell may have left it. */
export function completeShift(shift: Shift): Shift {
  return {
    ...shift,
    day: completeDay(shift.day),
    briefing: completeBriefing(shift.briefing),
    ...(shift.heardBefore && { heardBefore: completeEntry(shift.heardBefore) }),
    carriedIn: shift.carriedIn && completeCarryOver(shift.carriedIn),
    readings: shift.readings.map(completeReading),
  };
}
