import { strictestLimits } from '../facts/limits.ts';
import type { Shift } from '../model/shift.ts';
import { assessClimate, type ClimateReading, rhFromWetBulb } from '../trade/climate.ts';
import { type Apply, accept, type Decide, personOf } from './decision.ts';

/** CO1: one reading at the work face. Humidity is given, or worked out from the wet bulb at sea-level pressure. */
export const decideTakeReading: Decide<'take-reading'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const rhPct = command.rhPct ?? rhFromWetBulb(command.airC, command.wetC ?? Number.NaN);
  // What follows is computed from this reading again and again: a figure it cannot be computed from is refused here.
  assessReading(shift, { airC: command.airC, rhPct, steelC: command.steelC });
  return accept({
    type: 'reading-taken',
    reading: {
      by: who.person.id,
      airC: command.airC,
      rhPct: Math.max(1, Math.round(rhPct * 10) / 10),
      wetC: command.wetC ?? null,
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
  ...shift,
  readings: [...shift.readings, { ...event.reading, at }],
});
