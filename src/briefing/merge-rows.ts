import type { Params } from './caution.ts';

/** Rows that say the same of several rigs become one: "Rig 1, Rig 2: rubber wheels". The order stays that of the first. */
export function mergeRows(rows: readonly Params[]): readonly Params[] {
  const merged = new Map<string, Params>();
  for (const row of rows) {
    const { rig, ...rest } = row;
    const key = JSON.stringify(rig === undefined ? row : rest);
    const same = merged.get(key);
    if (!same) merged.set(key, row);
    else if (same.rig !== rig) merged.set(key, { ...same, rig: `${same.rig}, ${rig}` });
  }
  return [...merged.values()];
}
