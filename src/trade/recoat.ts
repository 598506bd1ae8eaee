import { inRange, TradeRefusal } from './refusal.ts';
import { instantIn, type SteelReading, type SteelSpan, steelSpans } from './steel-history.ts';

/** One row of a sheet's recoat table: it holds up to and with a surface of `toC` °C (−40 to 80), hours 0 to 8760. */
export interface RecoatRow {
  readonly toC: number;
  readonly minHours: number;
  readonly maxHours?: number | undefined;
}

export interface RecoatInput {
  readonly table: readonly RecoatRow[];
  /** When the first and the last of the coat was sprayed, epoch ms: it closes by the one and opens by the other. */
  readonly firstAt: number;
  readonly lastAt: number;
  /** Steel readings since the coat, and the one before it that still held then. Any order. */
  readonly steel: readonly SteelReading[];
}

export interface RecoatWindow {
  readonly opensAt: number;
  readonly minHours: number;
  /** The coldest the surface counts as having been until then, °C; null when it was not measured. */
  readonly coldestC: number | null;
  /** null: the sheet gives no latest time for what the surface has been. */
  readonly closes: RecoatEnd | null;
}

export interface RecoatEnd {
  readonly at: number;
  /** The held temperature it closes by, °C; null when the surface was not measured. */
  readonly heldC: number | null;
  /** null: hotter than the sheet's last row. From `at` on nothing is known of this coat. */
  readonly maxHours: number | null;
}

const HOUR_MS = 3_600_000;

/**
 * Earliest and latest moment for the next coat by the sheet's table, worked out so that neither errs to the easy side.
 *
 * - The end: the row of the highest surface temperature held for an hour or more since the coat. Warmer later, and held,
 *   closes it sooner. Hotter than the table: no figure, nothing is extrapolated.
 * - The start: the row of the coldest the surface has been until the wait is over, because cold lengthens it. Once over
 *   it stays over.
 * - Between two readings the warmer one counts for the end and the colder one for the start; the last one holds on.
 * - Without any reading: the longest wait and the earliest end of all rows.
 *
 * null for a sheet without a table. Source: UFGS 09971 (band by the highest temperature held an hour or more); the start
 * by the coldest is stricter than that source, see docs/decisions/0017-recoat-by-both-ends.md.
 * @throws TradeRefusal for a table that cannot be right (`recoatTable`), a value out of range, an end before the start
 */
export function recoatWindow(input: RecoatInput): RecoatWindow | null {
  const table = recoatTable(input.table);
  if (table.length === 0) return null;
  const firstAt = instantIn('firstAt', input.firstAt);
  const lastAt = instantIn('lastAt', input.lastAt, firstAt);
  const spans = steelSpans(input.steel, firstAt);
  return { ...startOf(table, spans, lastAt), closes: endOf(table, spans, firstAt) };
}

/**
 * The rows, coldest first, checked.
 * @throws TradeRefusal for two rows of one temperature, a latest time before the earliest, a warmer row that is longer
 * than a colder one, or a value out of range
 */
export function recoatTable(rows: readonly RecoatRow[]): readonly RecoatRow[] {
  const why = 'Copy the row from the data sheet again.';
  const sorted = rows
    .map(({ toC, minHours, maxHours }, i) => ({
      toC: inRange(`recoat[${i}].toC`, toC, -40, 80, '°C', why),
      minHours: inRange(`recoat[${i}].minHours`, minHours, 0, 8760, 'h', why),
      ...(maxHours === undefined
        ? {}
        : { maxHours: inRange(`recoat[${i}].maxHours`, maxHours, minHours, 8760, 'h', why) }),
    }))
    .sort((x, y) => x.toC - y.toC);
  for (const [i, warmer] of sorted.entries()) {
    const colder = sorted[i - 1];
    if (!colder) continue;
    if (warmer.toC === colder.toC)
      throw new TradeRefusal('recoat', warmer.toC, 'one row for each temperature', why);
    for (const end of ['minHours', 'maxHours'] as const) {
      const [at, before] = [warmer[end], colder[end]];
      if (at !== undefined && before !== undefined && at > before)
        throw new TradeRefusal(
          'recoat',
          at,
          `no longer at ${warmer.toC} °C than the ${before} h at ${colder.toC} °C`,
          `Warmth shortens both times. ${why}`,
        );
    }
  }
  return sorted;
}

/**
 * The highest surface temperature, °C, held for an hour or more from `firstAt` to `now` (epoch ms). In the first hour the
 * highest so far; null without a reading by then.
 * Source: UFGS 09971. @throws TradeRefusal for a value out of range or a `now` before `firstAt`
 */
export function heldSurfaceC(steel: readonly SteelReading[], firstAt: number, now: number): number | null {
  const until = instantIn('now', now, instantIn('firstAt', firstAt));
  const known = steel.filter(({ at }) => at <= until);
  const spans = steelSpans(known, firstAt)
    .filter(({ from }) => from < until || until === firstAt)
    .map((span) => ({ ...span, until: Math.min(span.until, until) }));
  const need = Math.min(HOUR_MS, until - firstAt);
  const held = spans.map(({ warmest }) => warmest).filter((c) => heldFrom(spans, c, need) !== null);
  return held.length === 0 ? null : Math.max(...held);
}

/**
 * Minutes until the steel should be read again while a coat waits, by its last temperature (°C, −60 to 120): 60, and 30
 * when the surface is above 38 °C. Source: UFGS 09971. @throws TradeRefusal out of range
 */
export function recoatReadingMinutes(steelC: number): number {
  return inRange('steelC', steelC, -60, 120, '°C', 'Check the thermometer and its unit.') > 38 ? 30 : 60;
}

function startOf(
  table: readonly RecoatRow[],
  spans: readonly SteelSpan[],
  lastAt: number,
): Omit<RecoatWindow, 'closes'> {
  const longest = Math.max(...table.map(({ minHours }) => minHours));
  let coldestC: number | null = null;
  for (const span of spans) {
    coldestC = Math.min(coldestC ?? span.coldest, span.coldest);
    // Hotter than every row the true wait is shorter than the last row's; that one is kept.
    const minHours = (rowFor(table, coldestC) ?? table.at(-1))?.minHours ?? longest;
    const opensAt = Math.max(span.from, Math.ceil(lastAt + minHours * HOUR_MS));
    if (opensAt < span.until) return { opensAt, minHours, coldestC };
  }
  return { opensAt: Math.ceil(lastAt + longest * HOUR_MS), minHours: longest, coldestC };
}

function endOf(table: readonly RecoatRow[], spans: readonly SteelSpan[], firstAt: number): RecoatEnd | null {
  if (spans.length === 0) {
    const ends = table.flatMap(({ maxHours }) => (maxHours === undefined ? [] : [maxHours]));
    if (ends.length === 0) return null;
    const maxHours = Math.min(...ends);
    return { at: Math.floor(firstAt + maxHours * HOUR_MS), heldC: null, maxHours };
  }
  // The rows' own ends as well: surface hotter than the table was, on the way, as hot as its last row.
  const marks = [...new Set([...spans.map(({ warmest }) => warmest), ...table.map(({ toC }) => toC)])];
  const ends = marks.flatMap((heldC): readonly RecoatEnd[] => {
    const maxHours = longestAt(table, heldC);
    if (maxHours === undefined) return [];
    const held = heldFrom(spans, heldC, maxHours === null ? HOUR_MS : Math.min(HOUR_MS, maxHours * HOUR_MS));
    if (held === null) return [];
    return [{ at: Math.floor(Math.max(held, firstAt + (maxHours ?? 0) * HOUR_MS)), heldC, maxHours }];
  });
  return ends.sort((x, y) => x.at - y.at || (y.heldC ?? 0) - (x.heldC ?? 0))[0] ?? null;
}

/** Hours until the coat closes at a held temperature; undefined when the sheet gives none, null above the table. */
function longestAt(table: readonly RecoatRow[], c: number): number | null | undefined {
  const row = rowFor(table, c);
  if (!row) return null;
  // A row without an end does not take back that of a colder row.
  const ends = table.flatMap(({ toC, maxHours }) =>
    toC <= row.toC && maxHours !== undefined ? [maxHours] : [],
  );
  return ends.length === 0 ? undefined : Math.min(...ends);
}

const rowFor = (table: readonly RecoatRow[], c: number) => table.find(({ toC }) => c <= toC);

/** The first moment at which `c` °C or more has been held for `need` ms without a break; null when it never is. */
function heldFrom(spans: readonly SteelSpan[], c: number, need: number): number | null {
  let since: number | null = null;
  for (const { from, until, warmest } of spans) {
    since = warmest >= c ? (since ?? from) : null;
    if (since !== null && until - since >= need) return since + need;
  }
  return null;
}

export type RecoatState = 'early' | 'open' | 'closing' | 'closed' | 'unknown';

/**
 * How a coat stands from `from` to `to` (epoch ms), the answer that warns more first: `closing` when its window ends in
 * between. `unknown`: no table, or the surface was hotter than it.
 */
export function recoatStateAt(window: RecoatWindow | null, from: number, to: number): RecoatState {
  if (!window) return 'unknown';
  const { closes, opensAt } = window;
  if (closes && closes.at <= from) return closes.maxHours === null ? 'unknown' : 'closed';
  if (closes && closes.at <= to) return 'closing';
  return opensAt > from ? 'early' : 'open';
}
