/**
 * Thrown by every function in this folder instead of returning a number it cannot stand behind.
 * The engine's one door turns it into a refusal text, and the site pack's check into a problem with its line; nothing
 * else should catch it.
 */
export class TradeRefusal extends Error {
  /** The input that was refused, by its name in the function's own parameters, such as `points[1].minutes`. */
  readonly field: string;
  /** What was found there. */
  readonly value: unknown;
  /** What would have been accepted, in words with units. */
  readonly valid: string;
  /** Why it matters or what to check, as a full sentence. */
  readonly why: string;

  constructor(field: string, value: unknown, valid: string, why: string) {
    super(`${field} is ${shown(value)}; it must be ${valid}. ${why}`);
    this.name = 'TradeRefusal';
    this.field = field;
    this.value = value;
    this.valid = valid;
    this.why = why;
  }
}

/**
 * Hands back `value` when it is a finite number from `min` to `max`, both ends included.
 * @throws TradeRefusal for anything else: NaN, an infinity, a missing value, a text that only looks like a number.
 */
export function inRange(
  field: string,
  value: unknown,
  min: number,
  max: number,
  unit: string,
  why: string,
): number {
  if (typeof value === 'number' && Number.isFinite(value) && value >= min && value <= max) return value;
  throw new TradeRefusal(field, value, `a number from ${min} to ${max}${unit && ` ${unit}`}`, why);
}

/** Largest instant a JavaScript date can hold, epoch milliseconds. */
export const LAST_INSTANT = 8.64e15;

/** Hands back an instant in epoch milliseconds. @throws TradeRefusal for anything else. */
export function instant(field: string, value: number): number {
  const why = 'Give the moment as epoch milliseconds.';
  return inRange(field, value, -LAST_INSTANT, LAST_INSTANT, 'ms since 1970', why);
}

/**
 * Hands back `list` when it has something in it.
 * @throws TradeRefusal when it is empty or no list at all.
 */
export function someOf<T>(field: string, list: readonly T[], why: string): readonly [T, ...T[]] {
  const [first, ...rest] = Array.isArray(list) ? (list as readonly T[]) : [];
  if (first === undefined) throw new TradeRefusal(field, list, 'a list with at least one entry', why);
  return [first, ...rest];
}

function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  return typeof value === 'object' && value !== null ? 'an object' : String(value);
}
