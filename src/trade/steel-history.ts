import { inRange, LAST_INSTANT } from './refusal.ts';

/** A steel surface temperature: `c` °C (−60 to 120) read at `at` (epoch ms). */
export interface SteelReading {
  readonly at: number;
  readonly c: number;
}

/** Between two readings nobody looked: `warmest` and `coldest` are the two neighbours, whichever is worse for the question. */
export interface SteelSpan {
  readonly from: number;
  readonly until: number;
  readonly warmest: number;
  readonly coldest: number;
}

const HOUR_MS = 3_600_000;
/** For the first three days each hour by itself, later each day: a window that is still open then is weeks long. */
const FINE_MS = 72 * HOUR_MS;
const DAY_MS = 24 * HOUR_MS;

export const instantIn = (field: string, value: number, from = -LAST_INSTANT) =>
  inRange(field, value, from, LAST_INSTANT, 'ms since 1970', 'Give the moment as epoch milliseconds.');

/**
 * The readings as spans from `from` (epoch ms) on, without gaps. A reading before `from` holds until the next; the first
 * one covers the time before it; the last one holds on, because nobody has said anything else. Empty without a reading.
 * @throws TradeRefusal for a temperature or a moment out of range
 */
export function steelSpans(readings: readonly SteelReading[], from: number): readonly SteelSpan[] {
  const start = instantIn('from', from);
  const moments = byMoment(readings);
  const [first] = moments;
  if (!first) return [];
  const spans = moments.map((moment, i): SteelSpan => {
    const next = moments[i + 1];
    return {
      from: Math.max(start, moment.at),
      until: next?.at ?? Number.POSITIVE_INFINITY,
      warmest: Math.max(moment.warmest, next?.warmest ?? moment.warmest),
      coldest: Math.min(moment.coldest, next?.coldest ?? moment.coldest),
    };
  });
  return [{ ...first, from: start, until: first.at }, ...spans].filter((span) => span.until > span.from);
}

interface Moment {
  readonly at: number;
  readonly warmest: number;
  readonly coldest: number;
}

function byMoment(readings: readonly SteelReading[]): readonly Moment[] {
  const moments = new Map<number, Moment>();
  readings.forEach((reading, i) => {
    const at = instantIn(`steel[${i}].at`, reading.at);
    const c = inRange(`steel[${i}].c`, reading.c, -60, 120, '°C', 'Check the thermometer and its unit.');
    const other = moments.get(at) ?? { warmest: c, coldest: c };
    moments.set(at, { at, warmest: Math.max(other.warmest, c), coldest: Math.min(other.coldest, c) });
  });
  return [...moments.values()].sort((x, y) => x.at - y.at);
}

/**
 * A history short enough to be carried from day to day: of more than four readings in one hour (after three days: in one
 * day) the warmest and the coldest stay, both at the moments of the first and of the last. Never warmer or colder than
 * what was read, and never milder: no window from it opens earlier or closes later. Doing it again changes nothing.
 */
export function thinnedSteel(readings: readonly SteelReading[], coatAt: number): readonly SteelReading[] {
  const bins = new Map<string, SteelReading[]>();
  for (const reading of [...readings].sort((x, y) => x.at - y.at || x.c - y.c)) {
    const fine = reading.at - coatAt < FINE_MS;
    const key = fine ? `h${Math.floor(reading.at / HOUR_MS)}` : `d${Math.floor(reading.at / DAY_MS)}`;
    bins.set(key, [...(bins.get(key) ?? []), reading]);
  }
  return [...bins.values()].flatMap((bin) => {
    const [first] = bin;
    const last = bin.at(-1);
    if (!first || !last || bin.length <= 4) return bin;
    const c = bin.map((reading) => reading.c);
    const [coldest, warmest] = [Math.min(...c), Math.max(...c)];
    return [first.at, last.at].flatMap((at) => [
      { at, c: coldest },
      { at, c: warmest },
    ]);
  });
}
