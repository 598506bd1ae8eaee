import type { DayEntry } from '../../src/model/day-entry.ts';
import type { SitePack } from '../../src/model/site.ts';
import { dayChecks } from './day-checks.ts';
import { inReadingOrder, type PackProblem } from './problem.ts';
import { readOne } from './read-entries.ts';

export type LoadedDay =
  | { readonly ok: true; readonly entry: DayEntry }
  | { readonly ok: false; readonly problems: readonly PackProblem[] };

/** One day entry, YAML or JSON, checked against the pack; or everything that is wrong with it. */
export function loadDayFile(file: string, pack: SitePack): LoadedDay {
  const { entry, problems } = readOne('day', file, () => null);
  const all = inReadingOrder([...problems, ...(entry ? dayChecks(entry, pack) : [])]);
  if (all.length > 0 || !entry?.value) return { ok: false, problems: all };
  return { ok: true, entry: entry.value };
}
