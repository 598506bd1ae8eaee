import type { DayEntry } from '../../src/model/day-entry.ts';
import { clockTime, HOUR, instantOf, MINUTE } from '../../src/model/time.ts';
import type { LoadedSite } from './site.ts';

/**
 * The example day of the demo, with its hours moved so that the shift starts about now: whoever tries it in the evening
 * should not have to wait for the morning. A real site's example keeps its hours.
 */
export function demoHours({ pack }: Pick<LoadedSite, 'pack'>, entry: DayEntry, now: number): DayEntry {
  const { demo, timeZone } = pack.site;
  if (!demo) return entry;
  const start = Math.ceil((now + 20 * MINUTE) / (10 * MINUTE)) * 10 * MINUTE;
  const moved = (time: string): string => {
    const after = instantOf(entry.date, time, timeZone) - instantOf(entry.date, entry.start, timeZone);
    return clockTime(start + ((after + 24 * HOUR) % (24 * HOUR)), timeZone);
  };
  const breaks = entry.breaks.map(({ from, to }) => ({ from: moved(from), to: moved(to) }));
  return { ...entry, start: moved(entry.start), end: moved(entry.end), breaks };
}
