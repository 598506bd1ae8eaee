import type { Params } from './caution.ts';

/** Figures that hold for each of several rigs as they stand. Any other may be an amount, and would read as the sum. */
const HOLDS_FOR_EACH = new Set(['bar', 'rating', 'minutes', 'useBy', 'hours', 'hot', 'mesh']);

/**
 * Rows that say the same of several rigs become one: "Rig 1, Rig 2: rubber wheels". Rows with an amount for each rig
 * stay apart: "Rig 1, Rig 2: bring 15 L" would leave one of them without. The order stays that of the first.
 */
export function mergeRows(rows: readonly Params[]): readonly Params[] {
  const merged = new Map<string, { readonly row: Params; readonly rigs: Set<string | number> }>();
  rows.forEach((row, i) => {
    const { rig, ...rest } = row;
    const key = JSON.stringify(rig === undefined ? row : hasAmount(rest) ? [i] : rest);
    const same = merged.get(key);
    if (!same) merged.set(key, { row, rigs: new Set(rig === undefined ? [] : [rig]) });
    else if (rig !== undefined) same.rigs.add(rig);
  });
  return [...merged.values()].map(({ row, rigs }) =>
    rigs.size > 1 ? { ...row, rig: [...rigs].join(', ') } : row,
  );
}

function hasAmount(row: Params): boolean {
  return Object.entries(row).some(([name, value]) => typeof value === 'number' && !HOLDS_FOR_EACH.has(name));
}
