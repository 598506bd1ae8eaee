import { paintC, sortedTable, type TemperatureMinutes } from './temperature-table.ts';

export interface Induction {
  readonly minutes: number;
  /** True when the paint is colder than the sheet's coldest line: the true wait is longer than `minutes`. */
  readonly belowTable: boolean;
}

/**
 * Minutes a mix must stand before it is used, at a paint temperature of −40 to 120 °C.
 *
 * Straight line between the sheet's lines (0 to 1440 min at −40 to 80 °C); warmer than the warmest line its figure, with
 * no credit; colder than the coldest line its figure, flagged, because nobody knows how much longer it must be. A table
 * of bands is entered by the warm end of each band, so that no temperature in the band gets less than the band's figure.
 * Induction runs from mixing and uses up pot life.
 * Source: the coating sheet; US Navy MIL-P-24441 as printed in NAVFAC MO-124 shows the shape of such a table.
 * @throws TradeRefusal for an empty table, a value out of range, two lines for one temperature, or a warmer line that
 * is longer than a colder one.
 */
export function inductionMinutes(points: readonly TemperatureMinutes[], c: number): Induction {
  const table = sortedTable(points, 0, 1440);
  const paint = paintC('c', c);
  const next = table.findIndex((row) => row.c >= paint);
  const upper = table[next];
  const lower = table[next - 1];
  if (upper && lower) {
    const share = (paint - lower.c) / (upper.c - lower.c);
    return { minutes: lower.minutes + share * (upper.minutes - lower.minutes), belowTable: false };
  }
  if (upper) return { minutes: upper.minutes, belowTable: paint < upper.c };
  return { minutes: table[table.length - 1]?.minutes ?? table[0].minutes, belowTable: false };
}
