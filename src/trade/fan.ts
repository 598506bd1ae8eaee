import { inRange } from './refusal.ts';

export interface FanInput {
  /** The test fan just measured, 10 to 1500 mm. */
  readonly widthMm: number;
  /** Width that the tip's code stands for, mm; null when the code is not a three-digit one. */
  readonly codeMm: number | null;
  /** Widths measured before with this tip, mm. */
  readonly before: readonly number[];
  /** Narrower by this much counts as worn, 1 to 90 %. */
  readonly wornPct: number;
}

export interface FanWear {
  /** What it is held against: the wider of code and widest fan before; null when there is neither. */
  readonly against: { readonly what: 'code' | 'before'; readonly mm: number } | null;
  /** How much narrower than that, %; 0 when it is as wide or wider, or when there is nothing to hold it against. */
  readonly narrowerPct: number;
  /** Time to change the tip. False also when there is nothing to hold the fan against: that is no leave to go on with it. */
  readonly worn: boolean;
}

/**
 * How far a tip is worn by its fan: the hole grows, more paint comes out over less width, long before the eye sees it on
 * the tip. Held against the wider of the code's fan and the widest fan noted with this tip, so that a tip which was worn
 * at the first fan already does not pass at the next.
 * Common practice, no source; so is a limit of about a quarter.
 * @throws TradeRefusal for a value out of range.
 */
export function fanWear(input: FanInput): FanWear {
  const mm = (field: string, value: number) =>
    inRange(field, value, 10, 1500, 'mm', 'Measure the fan across its width, in millimetres.');
  const width = mm('widthMm', input.widthMm);
  const limit = inRange('wornPct', input.wornPct, 1, 90, '%', 'Common practice is about a quarter.');
  const widest = Math.max(0, ...input.before.map((one, i) => mm(`before[${i}]`, one)));
  const code = input.codeMm === null ? 0 : mm('codeMm', input.codeMm);
  const reference = Math.max(widest, code);
  if (reference === 0) return { against: null, narrowerPct: 0, worn: false };
  const against = { what: code >= widest ? 'code' : 'before', mm: reference } as const;
  const narrowerPct = Math.max(0, (1 - width / reference) * 100);
  // A width exactly at the limit is worn; the small term keeps floating-point dust from passing it.
  return { against, narrowerPct, worn: narrowerPct >= limit - 1e-9 };
}
