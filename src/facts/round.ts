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
/** Down to one decimal: a margin. */
export const tenthDown = (value: number): number => Math.floor(value * 10 + DUST) / 10 + 0;

/** Stands in a caution where the words show no number, so that a number nobody reads cannot ask for a new sign-off. */
export const UNREAD = '-';
