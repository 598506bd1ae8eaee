/** A fact that made a rule speak: where it was written, and what stands there. */
export interface Because {
  /** Which file or earlier shift somebody would have to look at, or change, for the caution to go. */
  readonly from: 'day' | 'site' | 'coating' | 'rig' | 'yesterday';
  /** Name of the coating, rig or person it is about; '' where there is one only. */
  readonly of: string;
  /** The field as it is written there, "weather.airC". */
  readonly field: string;
  /** null: nothing is written there, and what is not known counts as dangerous. */
  readonly value: string | number | null;
}

type Value = string | number | boolean | readonly (string | number)[] | null | undefined;

const fact =
  (from: Because['from']) =>
  (of: string, field: string, value: Value): Because => ({ from, of, field, value: written(value) });

export const becauseCoating = fact('coating');
export const becauseRig = fact('rig');
export const becauseYesterday = fact('yesterday');
export const becauseDay = (field: string, value: Value) => fact('day')('', field, value);
export const becauseSite = (field: string, value: Value) => fact('site')('', field, value);

/** Each fact once, the first place kept. */
export function distinct(facts: readonly Because[]): readonly Because[] {
  return [...new Map(facts.map((one) => [JSON.stringify(one), one])).values()];
}

function written(value: Value): string | number | null {
  if (value === undefined || value === null) return null;
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'string' || typeof value === 'number') return value;
  return value.length === 0 ? null : value.join(', ');
}
