import { onePointBounds } from './activation.ts';
import { inRange, TradeRefusal } from './refusal.ts';
import { paintC, type SortedTable, sortedTable, type TemperatureMinutes } from './temperature-table.ts';

/** One line of the coating sheet's pot life: 1 to 10 080 min at −40 to 80 °C of paint temperature. */
export type PotLifePoint = TemperatureMinutes;

/**
 * Where a pot life comes from: a `point` of the sheet; `between` two points; `warmer` than the warmest point, so the
 * shorter of two estimates; `one-point`, warmer than the only point, so the early one of two bounds; `colder-held`, colder
 * than the coldest point and held at its figure without credit.
 */
export type PotLifeBasis = 'point' | 'between' | 'warmer' | 'one-point' | 'colder-held';

export interface PotLife {
  readonly minutes: number;
  readonly basis: PotLifeBasis;
  /** `one-point` only: the late bound, to show how far the two lie apart. No clock goes by it. */
  readonly lateMinutes?: number;
}

/** A sheet whose points were checked and put in order by `checkedPotLife`. */
export type CheckedPotLife = SortedTable;

/**
 * Rise of the rate of reaction per 10 °C by the rule of thumb: half the pot life (Unified Facilities Guide
 * Specification 09971, which states it for 21 °C and 50 % relative humidity).
 */
const HALVING_Q10 = 2;

/** No two-pack loses pot life faster than this per 10 °C; a sheet that says so was copied wrongly. */
const LARGEST_Q10 = 20;

const KELVIN = 273.15;

/**
 * The sheet's points, coldest first.
 * @throws TradeRefusal for an empty sheet, a value out of range (not positive included), two points for one
 * temperature, a longer pot life at a higher temperature, or a fall of more than twenty-fold per 10 °C.
 */
export function checkedPotLife(points: readonly PotLifePoint[]): CheckedPotLife {
  const sorted = sortedTable(points, 1, 10_080);
  sorted.forEach((warmer, i) => {
    const colder = sorted[i - 1];
    if (!colder) return;
    const q10 = (colder.minutes / warmer.minutes) ** (10 / (warmer.c - colder.c));
    if (q10 > LARGEST_Q10)
      throw new TradeRefusal(
        'points',
        warmer.minutes,
        `less far from the ${colder.minutes} min at ${colder.c} °C than it is at ${warmer.c} °C`,
        `No coating goes off more than ${LARGEST_Q10} times faster for 10 °C: copy both lines again.`,
      );
  });
  return sorted;
}

/**
 * Pot life in minutes of paint held at `c` (−40 to 120 °C), and where the figure comes from.
 *
 * Between points the logarithm of the pot life is taken as straight over 1/T (Arrhenius, T in kelvin). Warmer than the
 * warmest point it is the shorter of that line through the two warmest points and half the time per 10 °C; with one
 * point only, the early one of `onePointBounds`. Colder than the coldest point it is the coldest point's figure. It never grows with temperature. Large batches heat themselves and go off sooner than any sheet says.
 * @throws TradeRefusal for a temperature out of range or a sheet that `checkedPotLife` refuses.
 */
export function potLifeMinutes(points: readonly PotLifePoint[], c: number): PotLife {
  return potLifeOn(checkedPotLife(points), paintC('c', c));
}

/** `potLifeMinutes` on a checked sheet and a checked temperature, for walking through a history. */
export function potLifeOn(sheet: CheckedPotLife, c: number): PotLife {
  const next = sheet.findIndex((point) => point.c >= c);
  const upper = sheet[next];
  const lower = sheet[next - 1];
  if (upper?.c === c) return { minutes: upper.minutes, basis: 'point' };
  if (upper && lower) return { minutes: onLine(lower, upper, c), basis: 'between' };
  if (upper) return { minutes: upper.minutes, basis: 'colder-held' };
  return beyondWarmest(sheet, c);
}

/**
 * Pot life by one factor for every 10 °C, `minutes` at `refC` being known: `q10` 2 is the halving rule, which for colder
 * paint doubles. The rule alone; the clocks use `potLifeMinutes`, which gives no credit for cold.
 * Source: Unified Facilities Guide Specification 09971.
 * @throws TradeRefusal for a value out of range (`q10` 1 to 20).
 */
export function potLifeByQ10(minutes: number, refC: number, c: number, q10 = HALVING_Q10): number {
  const known = inRange('minutes', minutes, 1, 10_080, 'min', 'Copy it from the data sheet.');
  const factor = inRange('q10', q10, 1, LARGEST_Q10, 'per 10 °C', 'The rule of thumb is 2.');
  return scaled(known, paintC('c', c) - paintC('refC', refC), factor);
}

function beyondWarmest(sheet: CheckedPotLife, c: number): PotLife {
  const warmest = sheet[sheet.length - 1] ?? sheet[0];
  const before = sheet[sheet.length - 2];
  const halved = scaled(warmest.minutes, c - warmest.c, HALVING_Q10);
  if (before) return { minutes: Math.min(halved, onLine(before, warmest, c)), basis: 'warmer' };
  const { earlyMinutes, lateMinutes } = onePointBounds(warmest, c);
  return { minutes: Math.min(halved, earlyMinutes), basis: 'one-point', lateMinutes };
}

/** The straight line of ln(minutes) over 1/T through two points, also beyond them. */
function onLine(colder: PotLifePoint, warmer: PotLifePoint, c: number): number {
  const inverse = (celsius: number) => 1 / (celsius + KELVIN);
  const share = (inverse(c) - inverse(colder.c)) / (inverse(warmer.c) - inverse(colder.c));
  return colder.minutes * (warmer.minutes / colder.minutes) ** share;
}

function scaled(minutes: number, warmerByC: number, q10: number): number {
  return minutes * q10 ** (-warmerByC / 10);
}
