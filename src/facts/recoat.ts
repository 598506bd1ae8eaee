import type { CoatingSheet } from '../model/coating-sheet.ts';

export interface RecoatWindow {
  readonly minHours: number;
  /** null: the sheet gives no latest time. */
  readonly maxHours: number | null;
}

/**
 * The window of one coat from the sheet's table at the steel temperature that was read; null when the sheet has no row
 * for it. Without a steel temperature it is the narrowest window of the table: the longest wait of any row and the
 * earliest end of any row, because cold lengthens the one and heat shortens the other.
 */
export function windowOf(sheet: CoatingSheet | null, steelC: number | null): RecoatWindow | null {
  const rows = [...(sheet?.recoat ?? [])].sort((x, y) => x.toC - y.toC);
  if (steelC !== null) {
    const row = rows.find(({ toC }) => steelC <= toC);
    return row ? { minHours: row.minHours, maxHours: row.maxHours ?? null } : null;
  }
  if (rows.length === 0) return null;
  const ends = rows.flatMap(({ maxHours }) => (maxHours === undefined ? [] : [maxHours]));
  return {
    minHours: Math.max(...rows.map(({ minHours }) => minHours)),
    maxHours: ends.length > 0 ? Math.min(...ends) : null,
  };
}

export type RecoatState = 'late' | 'closing' | 'early' | 'open' | 'unknown';

/**
 * How a coat stands between the start and the end of the shift. `closing`: the window ends before the shift does.
 * The narrowest window of a coat without a temperature may have its end before its start; then `late` is the answer
 * that warns more.
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
