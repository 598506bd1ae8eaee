import { fromUnits, inUnits, type QuantityUnit, quantities, type Units } from './quantity.ts';

/** A number at most as fine as its unit is written, halves away from zero, never −0. */
export function rounded(unit: QuantityUnit, value: number, units: Units): number {
  const { decimals, figures = 0 } = quantities[unit][units] as { decimals: number; figures?: number };
  const size = Math.abs(value);
  const needed = size > 0 && figures > 0 ? figures - 1 - Math.floor(Math.log10(size)) : 0;
  const scale = 10 ** Math.min(12, Math.max(decimals, needed));
  const steps = size * scale;
  // The small term keeps floating-point dust from moving a half down.
  return (Math.sign(value) * Math.round(steps + steps * 1e-12)) / scale + 0;
}

/** The figure alone in the reader's units, as people write numbers in `locale`; no grouping, as "1,200" is two numbers to some. */
export function figureText(unit: QuantityUnit, metric: number, units: Units, locale: string): string {
  return numberText(rounded(unit, inUnits(unit, metric, units), units), locale);
}

const formats = new Map<string, Intl.NumberFormat>();

/** A number as people write it in `locale`, all its digits, never −0. */
export function numberText(value: number, locale: string): string {
  const known = formats.get(locale);
  const format = known ?? new Intl.NumberFormat(locale, { maximumFractionDigits: 12, useGrouping: false });
  if (!known) formats.set(locale, format);
  return format.format(value + 0);
}

/** Figure and unit: `quantityText('bar', 7, 'us', 'en')` is "102 psi". @throws TradeRefusal for what is no amount. */
export function quantityText(unit: QuantityUnit, metric: number, units: Units, locale: string): string {
  return `${figureText(unit, metric, units, locale)} ${quantities[unit][units].sign}`;
}

/**
 * What a form shows in a field that already has a value: rounded for reading, unless reading it back would give another
 * figure than the one it came from; then as many digits as it takes.
 */
export function fieldValue(unit: QuantityUnit, metric: number, units: Units): number {
  const exact = inUnits(unit, metric, units);
  const short = rounded(unit, exact, units);
  const back = fromUnits(unit, short, units);
  return Math.abs(back - metric) <= Math.abs(metric) * 1e-9 ? short : units === 'us' ? short : metric;
}
