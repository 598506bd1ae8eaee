import type { CoatingSheet } from '../model/coating-sheet.ts';
import { potLifeMinutes } from '../trade/pot-life.ts';
import { potLifeUnknown } from './pot-life-points.ts';
import type { UsedCoating } from './used.ts';

/** Paint that sets sooner than this sets in the tip between two passes, minutes. Common practice, no source. */
const SETS_WITHIN_MINUTES = 60;
/** Paint that takes its next coat this soon is dry in the tip long before, hours. Common practice, no source. */
const RECOATED_WITHIN_HOURS = 1;

/** Why paint dries in the tip between passes. `unknown`: no sheet, or neither pot life nor recoat time on it, to tell. */
export type QuickDrying =
  | { readonly why: 'family' | 'unknown' }
  | { readonly why: 'pot'; readonly minutes: number }
  | { readonly why: 'recoat'; readonly hours: number };

/** By the sheet at `c`, the warmest expected, °C; null when nothing on it says that it dries fast. */
export function quickDrying({ sheet }: UsedCoating, c: number): QuickDrying | null {
  if (!sheet) return { why: 'unknown' };
  if (sheet.family === 'zinc-silicate') return { why: 'family' };
  if (potLifeUnknown(sheet) || (!sheet.potLife && sheet.recoat.length === 0)) return { why: 'unknown' };
  if (sheet.potLife) {
    const { minutes } = potLifeMinutes(sheet.potLife, c);
    if (minutes <= SETS_WITHIN_MINUTES) return { why: 'pot', minutes };
  }
  const hours = shortestWait(sheet, c);
  return hours !== null && hours <= RECOATED_WITHIN_HOURS ? { why: 'recoat', hours } : null;
}

/** The wait of the row that holds at `c`; hotter than the table, of its hottest row. */
function shortestWait({ recoat }: CoatingSheet, c: number): number | null {
  const rows = [...recoat].sort((x, y) => x.toC - y.toC);
  return (rows.find(({ toC }) => toC >= c) ?? rows.at(-1))?.minHours ?? null;
}
