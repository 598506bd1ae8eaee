import type { CoatingSheet } from '../model/coating-sheet.ts';

export interface RecoatWindow {
  readonly minHours: number;
  /** null: the sheet gives no latest time. */
  readonly maxHours: number | null;
}

/**
 * The window of one coat from the sheet's table. The shortest wait is by the coldest steel reading since the coat, the
 * longest by the warmest, because cold lengthens the one and heat shortens the other; every row in between counts. A
 * reading that is null was not taken: then the table's slowest or fastest row stands in for it. null when the sheet has no
 * row for a reading. Temperatures in °C.
 */
export function windowOf(
  sheet: CoatingSheet | null,
  coldestC: number | null,
  warmestC: number | null,
): RecoatWindow | null {
  const rows = [...(sheet?.recoat ?? [])].sort((x, y) => x.toC - y.toC);
  const rowAt = (steelC: number) => rows.findIndex(({ toC }) => steelC <= toC);
  const from = coldestC === null ? 0 : rowAt(coldestC);
  const to = warmestC === null ? rows.length - 1 : rowAt(warmestC);
  if (from < 0 || to < 0) return null;
  const met = rows.slice(Math.min(from, to), Math.max(from, to) + 1);
  const ends = met.flatMap(({ maxHours }) => (maxHours === undefined ? [] : [maxHours]));
  return {
    minHours: Math.max(...met.map(({ minHours }) => minHours)),
    maxHours: ends.length > 0 ? Math.min(...ends) : null,
  };
}

export type RecoatState = 'late' | 'closing' | 'early' | 'open' | 'unknown';

/**
 * How a coat stands between the start and the end of the shift. `closing`: the window ends before the shift does.
 * A window of a cold night and a hot day may have its end before its start; then `late` is the answer that warns more.
 */
export function recoatState(
  window: RecoatWindow | null,
  hoursAtStart: number,
  hoursAtEnd: number,
): RecoatState {
  if (!window) return 'unknown';
  const { minHours, maxHours } = window;
  if (maxHours !== null && hoursAtStart > maxHours) return 'late';
  if (maxHours !== null && hoursAtEnd > maxHours) return 'closing';
  return hoursAtStart < minHours ? 'early' : 'open';
}
