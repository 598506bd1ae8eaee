import { inRange, someOf, TradeRefusal } from './refusal.ts';

/** One line of a data sheet: so many minutes at this temperature of the paint. */
export interface TemperatureMinutes {
  /** °C, −40 to 80. */
  readonly c: number;
  readonly minutes: number;
}

/** A table with at least one line, coldest first, in which a warmer line is never longer. */
export type SortedTable = readonly [TemperatureMinutes, ...TemperatureMinutes[]];

/** Two lines closer than this are one line copied twice. */
const CLOSEST_C = 0.1;

/** The temperature of paint or hose, °C. @throws TradeRefusal outside −40 to 120 °C. */
export function paintC(field: string, c: number): number {
  return inRange(field, c, -40, 120, '°C', 'Check the thermometer and its unit.');
}

/**
 * The lines in order of temperature, checked.
 * @throws TradeRefusal for an empty table, a value out of range, two lines for one temperature, or a warmer line that
 * is longer than a colder one.
 */
export function sortedTable(
  rows: readonly TemperatureMinutes[],
  minMinutes: number,
  maxMinutes: number,
): SortedTable {
  const why = 'Copy the line from the data sheet again.';
  const sorted = someOf('points', rows, 'Copy at least one line from the data sheet.')
    .map((row, i) => ({
      c: inRange(`points[${i}].c`, row.c, -40, 80, '°C', why),
      minutes: inRange(`points[${i}].minutes`, row.minutes, minMinutes, maxMinutes, 'min', why),
    }))
    .sort((x, y) => x.c - y.c);
  sorted.forEach((warmer, i) => {
    const colder = sorted[i - 1];
    if (!colder) return;
    if (warmer.c - colder.c < CLOSEST_C)
      throw new TradeRefusal(
        'points',
        warmer.c,
        'one line for each temperature',
        `There are two lines for ${warmer.c} °C: keep the one on the data sheet.`,
      );
    if (warmer.minutes > colder.minutes)
      throw new TradeRefusal(
        'points',
        warmer.minutes,
        `no longer at ${warmer.c} °C than the ${colder.minutes} min at ${colder.c} °C`,
        `Warmer paint goes off sooner. ${why}`,
      );
  });
  return someOf('points', sorted, why);
}
