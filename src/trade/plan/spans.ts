import type { Span } from './types.ts';

export const MS_PER_MINUTE = 60_000;

/** In order of time, those that touch or overlap joined, those without length left out. */
export function joined(spans: readonly Span[]): readonly Span[] {
  const out: Span[] = [];
  for (const span of [...spans].filter(({ from, to }) => to > from).sort((x, y) => x.from - y.from)) {
    const last = out.at(-1);
    if (last && span.from <= last.to)
      out[out.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
    else out.push({ from: span.from, to: span.to });
  }
  return out;
}

/** The first moment at or after `from` that lies in none of the joined stops. */
export function firstClear(from: number, stops: readonly Span[]): number {
  const inside = stops.find((stop) => stop.from <= from && from < stop.to);
  return inside ? inside.to : from;
}

/** When `minutes` of work begun at `from` are done, standing still in the joined stops. */
export function workedUntil(from: number, minutes: number, stops: readonly Span[]): number {
  let at = firstClear(from, stops);
  let left = minutes * MS_PER_MINUTE;
  for (const stop of stops) {
    if (stop.to <= at) continue;
    if (at + left <= stop.from) break;
    left -= stop.from - at;
    at = stop.to;
  }
  return at + left;
}

/** The parts of the joined stops that lie between two moments. */
export function stopsBetween(from: number, to: number, stops: readonly Span[]): readonly Span[] {
  return stops
    .map((stop) => ({ from: Math.max(stop.from, from), to: Math.min(stop.to, to) }))
    .filter((stop) => stop.to > stop.from);
}

export const overlaps = (one: Span, other: Span): boolean => one.from < other.to && other.from < one.to;

/**
 * The earliest `minutes` in one piece at or after `from` that touch no joined stop and are over by `until`; null when there
 * is no room.
 */
export function firstSlot(from: number, minutes: number, stops: readonly Span[], until: number): Span | null {
  let at = firstClear(from, stops);
  for (;;) {
    const slot = { from: at, to: at + minutes * MS_PER_MINUTE };
    if (slot.to > until) return null;
    const stop = stops.find((one) => overlaps(one, slot));
    if (!stop) return slot;
    at = stop.to;
  }
}
