import { parseQuantity } from '../../src/units/parse.ts';
import { fieldUnits } from './field-units.ts';

/** A figure whose unit cannot stand in its field. `path`: inside the entry. */
export interface UnitFault {
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly write: string;
}

export interface InFieldUnits {
  /** The entry with every figure that was written with a unit turned into a plain number of the field's own unit. */
  readonly data: unknown;
  readonly faults: readonly UnitFault[];
}

/** `50 ft` in `rigs.hoses.lengthM` becomes 15.24. Everything that is no text with digits in a field with a unit is left as it is. */
export function inFieldUnits(kind: string, raw: unknown): InFieldUnits {
  const faults: UnitFault[] = [];
  const data = walk(kind, [], raw, faults);
  return { data, faults };
}

function walk(
  name: string,
  path: readonly (string | number)[],
  value: unknown,
  faults: UnitFault[],
): unknown {
  if (Array.isArray(value)) return value.map((one, i) => walk(name, [...path, i], one, faults));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(
      Object.entries(value).map(([key, one]) => [key, walk(`${name}.${key}`, [...path, key], one, faults)]),
    );
  const unit = Object.hasOwn(fieldUnits, name) ? fieldUnits[name] : undefined;
  // A number in quotes without a unit stays what it was: a text where a number is expected.
  if (unit === undefined || typeof value !== 'string' || !/\d\s*[^\d\s.,]/u.test(value)) return value;
  const read = parseQuantity(value, unit, 'metric');
  if (read.ok) return read.metric;
  const [metric = '', us = ''] = read.accepted;
  const write = `a plain number (${metric}), or one with ${metric} or ${us} behind it`;
  const message =
    read.reason === 'imperial'
      ? 'imperial gallons are not known here'
      : read.reason === 'wrong-unit'
        ? 'this unit does not belong to this field'
        : 'this is no number with a unit';
  faults.push({ path, message, write });
  return value;
}
