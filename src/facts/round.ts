/**
 * Numbers are rounded before they go into a caution, so that a sign-off is asked again only when what is read changes.
 * Each rounds to the side that warns more. The small term keeps floating-point dust from moving a whole step.
 */
const DUST = 1e-6;

/** Up to a whole number: pressures, minutes a flush takes. */
export const wholeUp = (value: number): number => Math.ceil(value - DUST) + 0;
/** Down to a whole number: minutes of pot life, ratings. */
export const wholeDown = (value: number): number => Math.floor(value + DUST) + 0;
/** To the nearest whole number. */
export const whole = (value: number): number => Math.round(value) + 0;
/** To one decimal: litres, °C. */
export const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
/** Up to one decimal: solvent to have ready. */
export const tenthUp = (value: number): number => Math.ceil(value * 10 - DUST) / 10 + 0;
/** Air to blow: up, to the tenth while it is little, to the cubic metre when it is much. */
export const airUp = (m3: number): number => (m3 < 10 ? tenthUp(m3) : wholeUp(m3));
/** Down to one decimal: a margin. */
export const tenthDown = (value: number): number => Math.floor(value * 10 + DUST) / 10 + 0;

/**
 * Litres of a part of a two-pack mix, near enough that two printed parts keep the ratio within 1 %: to 0.01 L from 10 L,
 * to the millilitre below, finer only for a part under 0.1 L. A tenth of a litre would not do: 5 L at 10 : 1 would print
 * 4.5 and 0.5, that is 9 : 1. Litres of 0 or more in and out.
 */
export const litresForRatio = (value: number): number => atStep(value, Math.round);
/** The same digits, downward: thinner, where the sheet's percentage is the most that may go in. */
export const litresForRatioDown = (value: number): number =>
  atStep(value, (steps) => Math.floor(steps + DUST));

function atStep(litres: number, toWhole: (steps: number) => number): number {
  const finer = litres > 0 && litres < 0.1 ? Math.ceil(-Math.log10(litres)) - 1 : 0;
  const perLitre = 10 ** (litres >= 10 ? 2 : 3 + finer);
  return toWhole(litres * perLitre) / perLitre;
}

/** Stands in a caution where the words show no number, so that a number nobody reads cannot ask for a new sign-off. */
export const UNREAD = '-';
