import { rhFromWetBulb } from '../trade/climate.ts';
import { type Apply, accept, type Decide, personOf } from './decision.ts';

/** CO1: one reading at the work face. Humidity is given, or worked out from the wet bulb at sea-level pressure. */
export const decideTakeReading: Decide<'take-reading'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const rhPct = command.rhPct ?? rhFromWetBulb(command.airC, command.wetC ?? Number.NaN);
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

export const applyReadingTaken: Apply<'reading-taken'> = (shift, event, { at }) => ({
  ...shift,
  readings: [...shift.readings, { ...event.reading, at }],
});
