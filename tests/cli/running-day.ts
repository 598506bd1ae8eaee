import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { exampleDay } from '../../adapters/cli/site.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import { clockTime, dateAt, HOUR } from '../../src/model/time.ts';
import { site } from './potbell.ts';

const zone = site.pack.site.timeZone;

/** The demo's example day, moved so that it began three hours before `now` and goes on for four more. */
export function runningDay(now: number): DayEntry {
  const example = exampleDay(site);
  if (!example) throw new Error('the demo site has no example day');
  const start = now - 3 * HOUR;
  return {
    ...example,
    date: dateAt(start, zone),
    start: clockTime(start, zone),
    end: clockTime(now + 4 * HOUR, zone),
    breaks: [],
  };
}

/** A batch of the demo's epoxy that was mixed four hours before `now`: by its sheet it is dead. */
export const deadBatch = (now: number) =>
  ({
    type: 'mix-batch',
    rig: 'rig-1',
    coating: 'epoxy-mid',
    litres: 20,
    paintC: 20,
    pot: 'fresh',
    mixedAt: now - 4 * HOUR,
  }) as const;

export function shiftOf(entry: DayEntry): string {
  return `${site.pack.site.id}:${entry.date}`;
}

/** A day file of it. JSON is one of the two spellings a day file may have. */
export function dayFile(folder: string, entry: unknown, name = 'day.json'): string {
  const file = join(folder, name);
  writeFileSync(file, JSON.stringify(entry, null, 2));
  return file;
}
