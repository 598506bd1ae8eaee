import { inRange, LAST_INSTANT } from './refusal.ts';

/** One reading of one figure at one place. */
export interface TrendPoint {
  /** Epoch milliseconds. */
  readonly at: number;
  /** °C for a margin, per cent for humidity: −1000 to 1000. */
  readonly value: number;
}

/** The limit the figure must keep: it may not fall under `least`, or may not rise over `most`. */
export type TrendLimit = { readonly least: number } | { readonly most: number };

export interface Trend {
  /** How fast the figure moves, in its own unit an hour: negative falls. */
  readonly perHour: number;
  /** The two it is the faster of: the slope of the last two readings, and that of the line through all. */
  readonly pairPerHour: number;
  readonly linePerHour: number;
  /** When it meets its limit if it goes on like this, epoch milliseconds; null when that is not to be expected soon. */
  readonly goneAt: number | null;
  /** The readings it rests on, oldest first, two at least. */
  readonly taken: readonly TrendPoint[];
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** Readings older than this against the last one are left out: a morning says little about an afternoon. */
export const TREND_WINDOW_MS = 5 * HOUR;
/** Nearer than this the meters' own error is larger than what the weather does. */
export const APART_MS = 10 * MINUTE;
/** A straight line is believed this far beyond the last reading; the regular reading comes by then. */
export const AHEAD_MS = 4 * HOUR;

const LIMIT = 'Copy it from the coating sheet or the site policy.';
/**
 * How a figure moves and when it meets its limit, from readings at one place in order of time.
 *
 * Taken are the last reading and, going back, each that is at least 10 minutes older than the one taken before, up to
 * 5 hours back. Through two or more of them goes a straight line (least squares); beside it stands the slope of the last
 * two alone. Whichever runs to the limit faster counts, because an early warning costs one more reading and a late one
 * costs a coat. From the last reading on, that rate is carried on for 4 hours at most.
 *
 * null when there are not two readings 10 minutes apart. `goneAt` is null when the figure moves away from its limit or
 * stands still, when the limit is more than 4 hours off, and when the last reading misses it already: that is no trend
 * but a fact. Common practice, no source. It is an extrapolation: sun, shade and wind bend the line at any minute.
 * @throws TradeRefusal for a figure that is no number, or readings out of order.
 */
export function trendOf(points: readonly TrendPoint[], limit: TrendLimit): Trend | null {
  // A figure with a most is turned upside down, so that from here on falling is the bad way.
  const sign = 'least' in limit ? 1 : -1;
  const floor = sign * inRange('limit', 'least' in limit ? limit.least : limit.most, -1000, 1000, '', LIMIT);
  const taken = apart(checked(points));
  const turned = taken.map(({ at, value }) => ({ at, value: sign * value }));
  const last = turned.at(-1);
  const before = turned.at(-2);
  if (!last || !before) return null;
  const pair = slope([before, last]);
  const line = slope(turned);
  const perMs = Math.min(pair, line);
  const goneAt = last.at + (floor - last.value) / perMs;
  const soon = perMs < 0 && last.value >= floor && goneAt <= last.at + AHEAD_MS;
  return {
    perHour: sign * perMs * HOUR + 0,
    pairPerHour: sign * pair * HOUR + 0,
    linePerHour: sign * line * HOUR + 0,
    goneAt: soon ? Math.floor(goneAt) : null,
    taken,
  };
}

function checked(points: readonly TrendPoint[]): readonly TrendPoint[] {
  points.forEach(({ at, value }, i) => {
    const earliest = points[i - 1]?.at ?? -LAST_INSTANT;
    inRange(`points[${i}].at`, at, earliest, LAST_INSTANT, 'ms', 'Readings come in order of time.');
    inRange(`points[${i}].value`, value, -1000, 1000, '', 'Take the reading again.');
  });
  return points;
}

/** The last reading and, backwards, those at least `APART_MS` from the one taken before; oldest first. */
function apart(points: readonly TrendPoint[]): readonly TrendPoint[] {
  const last = points.at(-1);
  if (!last) return [];
  const taken = [last];
  for (const point of points.toReversed()) {
    const next = taken[0] ?? last;
    if (last.at - point.at <= TREND_WINDOW_MS && next.at - point.at >= APART_MS) taken.unshift(point);
  }
  return taken;
}

/** Slope of the least-squares line, per millisecond. At least two points, at different times. */
function slope(points: readonly TrendPoint[]): number {
  const mean = (pick: (point: TrendPoint) => number) =>
    points.reduce((sum, point) => sum + pick(point), 0) / points.length;
  const at = mean((point) => point.at);
  const value = mean((point) => point.value);
  const moved = mean((point) => (point.at - at) * (point.value - value));
  return moved / mean((point) => (point.at - at) ** 2);
}
