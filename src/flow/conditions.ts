import { strictestLimits } from '../facts/limits.ts';
import type { Shift } from '../model/shift.ts';
import { assessClimate, type ClimateReading, rhFromWetBulb } from '../trade/climate.ts';
import { pressureAtHPa } from '../trade/pressure-at.ts';
import { type Apply, accept, type Decide, foremen, namesOf, personOf, refuse } from './decision.ts';
import { airWarmer } from './standing.ts';

/** CO1: one reading at the work face. Humidity is given, or worked out from the wet bulb at the height of the site. */
export const decideTakeReading: Decide<'take-reading'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const pressureHPa = pressureAtHPa(shift.day.site.altitudeM);
  const rhPct = command.rhPct ?? rhFromWetBulb(command.airC, command.wetC ?? Number.NaN, pressureHPa);
  // What follows is computed from this reading again and again: a figure it cannot be computed from is refused here.
  assessReading(shift, { airC: command.airC, rhPct, steelC: command.steelC });
  return accept({
    type: 'reading-taken',
    reading: {
      by: who.person.id,
      airC: command.airC,
      rhPct: Math.max(1, Math.round(rhPct * 10) / 10),
      wetC: command.wetC ?? null,
      wbgtC: command.wbgtC ?? null,
      steelC: command.steelC,
      place: command.place,
    },
  });
};

/** Throws TradeRefusal for a reading outside what dew point and limits can be worked out for. */
function assessReading(shift: Shift, reading: ClimateReading): void {
  for (const sheet of Object.values(shift.day.coatings))
    assessClimate(reading, strictestLimits(shift.day, sheet));
}

export const applyReadingTaken: Apply<'reading-taken'> = (shift, event, { at }) => ({
  ...airWarmer(shift, event.reading.airC, at),
  readings: [...shift.readings, { ...event.reading, at }],
});

/** CO3: a slip of the keys must not lift a hold: who took a reading, or the foreman, takes it back with a reason. */
export const decideVoidReading: Decide<'void-reading'> = (shift, { takenAt, reason }, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const reading = shift.readings.find(({ at }) => at === takenAt);
  if (!reading) return refuse('refusal.no-such-reading');
  if (reading.by !== who.person.id && !who.person.roles.includes('foreman'))
    return refuse('refusal.foreman-only', { foreman: namesOf(shift, foremen(shift)) });
  return accept({ type: 'reading-voided', takenAt, by: who.person.id, reason });
};

export const applyReadingVoided: Apply<'reading-voided'> = (shift, { takenAt }) => ({
  ...shift,
  readings: shift.readings.filter(({ at }) => at !== takenAt),
});
