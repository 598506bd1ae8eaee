import {
  type CheckedPotLife,
  checkedPotLife,
  type PotLifeBasis,
  type PotLifePoint,
  potLifeOn,
} from './pot-life.ts';
import { inRange, instant, LAST_INSTANT, someOf } from './refusal.ts';
import { paintC } from './temperature-table.ts';

/**
 * From `at` (epoch ms) the mixed paint is at `c` °C (−40 to 120), until the next step. The first step also covers the
 * time before it, the last one all the time after it. The order of the list does not matter; of two steps at the same
 * moment the warmer one counts.
 */
export interface TemperatureStep {
  readonly at: number;
  readonly c: number;
}

interface Span {
  readonly from: number;
  readonly until: number;
  readonly c: number;
}

const MS_PER_MINUTE = 60_000;

/**
 * Fraction of the pot life that paint uses up from `fromMs` to `toMs` (epoch ms): the integral of dt/τ(T(t)). 1 is the
 * end of the pot life; more than 1 is possible and means that it is over.
 * Source: additive life fractions, the sheet's pot life at each temperature by `potLifeMinutes`.
 * @throws TradeRefusal for a bad sheet, an empty history, a value out of range or an end before the start.
 */
export function doseBetween(
  points: readonly PotLifePoint[],
  history: readonly TemperatureStep[],
  fromMs: number,
  toMs: number,
): number {
  const sheet = checkedPotLife(points);
  const from = instant('fromMs', fromMs);
  const to = inRange('toMs', toMs, from, LAST_INSTANT, 'ms since 1970', 'The end lies before the start.');
  return spans(history, from)
    .filter((span) => span.from < to)
    .reduce((sum, span) => sum + (Math.min(span.until, to) - span.from) / msOfLife(sheet, span.c), 0);
}

/**
 * The moment (epoch ms, a whole number, rounded down) at which paint mixed at `fromMs` has used up `dose` (0 to 100)
 * of its pot life, if the last known temperature holds.
 * @throws TradeRefusal for a bad sheet, an empty history or a value out of range.
 */
export function timeAtDose(
  points: readonly PotLifePoint[],
  history: readonly TemperatureStep[],
  fromMs: number,
  dose: number,
): number {
  const sheet = checkedPotLife(points);
  const from = instant('fromMs', fromMs);
  let left = inRange('dose', dose, 0, 100, 'pot lives', 'The end of the pot life is 1.');
  let end = from;
  for (const span of spans(history, from)) {
    const life = msOfLife(sheet, span.c);
    end = span.from + left * life;
    if (end <= span.until) break;
    left -= (span.until - span.from) / life;
  }
  // The small term keeps rounding dust from costing a whole millisecond; it can be no more than a microsecond late.
  return Math.max(from, Math.floor(end + 0.001));
}

export interface ClockInput {
  readonly points: readonly PotLifePoint[];
  readonly history: readonly TemperatureStep[];
  /** Moment of mixing, epoch ms. Induction runs from the same moment and is part of the pot life. */
  readonly mixedAt: number;
  /** Share of the pot life kept back for purging and cleaning, 0 to 0.95. */
  readonly reserveFraction: number;
  /** Minutes from starting the flush until the paint is out, 0 to 1440; see `flushPlan`. */
  readonly flushMinutes: number;
}

export interface ClockTimes {
  /** Stop spraying this mix, epoch ms: the earlier of the reserve and the start of the flush. */
  readonly useBy: number;
  /** Latest start of the flush, epoch ms. */
  readonly startFlushBy: number;
  /** End of the pot life, epoch ms. */
  readonly deadAt: number;
  /** True when the flush takes as long as the whole pot life or longer: then the other two are `mixedAt`. */
  readonly tooShort: boolean;
  /** Where the pot lives used up to `deadAt` came from, in order of first use. */
  readonly bases: readonly PotLifeBasis[];
}

/**
 * The moments that follow from one mix, none earlier than `mixedAt`.
 * Source of the reserve: US Army TM 55-1500-345-23 has a mix with 8 h of pot life used within 6 h, so that everything
 * can be purged and cleaned; that is 0.25.
 * @throws TradeRefusal for a bad sheet, an empty history or a value out of range.
 */
export function clockTimes(input: ClockInput): ClockTimes {
  const { points, history, mixedAt } = input;
  const reserve = inRange(
    'reserveFraction',
    input.reserveFraction,
    0,
    0.95,
    'of the pot life',
    'A quarter is usual.',
  );
  const flush = inRange('flushMinutes', input.flushMinutes, 0, 1440, 'min', 'Work it out for this rig.');
  const deadAt = timeAtDose(points, history, mixedAt, 1);
  const latestStart = Math.floor(deadAt - flush * MS_PER_MINUTE);
  const tooShort = latestStart <= mixedAt;
  const startFlushBy = tooShort ? mixedAt : latestStart;
  return {
    useBy: Math.min(startFlushBy, timeAtDose(points, history, mixedAt, 1 - reserve)),
    startFlushBy,
    deadAt,
    tooShort,
    bases: basesUntil(checkedPotLife(points), history, mixedAt, deadAt),
  };
}

function basesUntil(
  sheet: CheckedPotLife,
  history: readonly TemperatureStep[],
  from: number,
  until: number,
): readonly PotLifeBasis[] {
  const used = spans(history, from).filter((span) => span.from <= until);
  return [...new Set(used.map((span) => potLifeOn(sheet, span.c).basis))];
}

function msOfLife(sheet: CheckedPotLife, c: number): number {
  return potLifeOn(sheet, c).minutes * MS_PER_MINUTE;
}

/** The history from `from` on, as spans without gaps; the last one never ends. */
function spans(history: readonly TemperatureStep[], from: number): readonly Span[] {
  const steps = someOf('history', history, 'A clock needs at least one temperature of the paint.')
    .map((step, i) => ({ at: instant(`history[${i}].at`, step.at), c: paintC(`history[${i}].c`, step.c) }))
    .sort((x, y) => x.at - y.at || x.c - y.c)
    .filter((step, i, sorted) => sorted[i + 1]?.at !== step.at);
  return steps
    .map((step, i) => ({
      from: i === 0 ? from : Math.max(from, step.at),
      until: steps[i + 1]?.at ?? Number.POSITIVE_INFINITY,
      c: step.c,
    }))
    .filter((span) => span.until > span.from);
}
