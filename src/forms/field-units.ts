import type { Field } from '../message/form.ts';
import type { QuantityUnit, Units } from '../units/quantity.ts';
import { isQuantityUnit, quantities, unitSign } from '../units/quantity.ts';
import { fieldValue } from '../units/write.ts';

/** What the fields of the forms measure, by the last part of their name. A field that is not here is a plain number. */
const units: Readonly<Record<string, QuantityUnit>> = {
  airC: '°C',
  steelC: '°C',
  wetC: '°C',
  wbgtC: '°C',
  paintC: '°C',
  c: '°C',
  windMps: 'm/s',
  pressure: 'bar',
  dftUm: 'µm',
  profileUm: 'µm',
  areaM2: 'm²',
  liftM: 'm',
  volumeM3: 'm³',
  airM3PerMin: 'm³/min',
  litres: 'L',
  thinnerL: 'L',
  aL: 'L',
  bL: 'L',
  sprayedL: 'L',
  wastedL: 'L',
  widthMm: 'mm',
};

export function fieldUnit(name: string): QuantityUnit | null {
  const last = name.split('.').at(-1) ?? '';
  return Object.hasOwn(units, last) ? (units[last] ?? null) : null;
}

/** How far one tap on − or + goes for a US reader: a figure somebody would read off a gauge, not a converted one. */
const usSteps: Partial<Readonly<Record<QuantityUnit, number>>> = {
  '°C': 1,
  bar: 5,
  µm: 0.5,
  'm²': 10,
  m: 1,
  'm³': 10,
  'm³/min': 10,
  L: 0.1,
  mm: 0.25,
};

/** A field as people of this site see it: their unit, and what is in it already in their unit. */
export function inSiteUnits(field: Field, shown: Units): Field {
  if (field.kind !== 'number' || shown === 'metric' || !isQuantityUnit(field.unit)) return field;
  const unit = field.unit;
  return {
    ...field,
    unit: unitSign(unit, shown),
    step: usSteps[unit] ?? 10 ** -quantities[unit].us.decimals,
    ...(typeof field.value === 'number' ? { value: fieldValue(unit, field.value, shown) } : {}),
  };
}

/** What the fields were filled with, as shown and as it was: left alone, a figure comes back as it was, not as rounded. */
export type Filled = ReadonlyMap<string, { readonly shown: string; readonly metric: number }>;

export function filledFields(fields: readonly Field[], units: Units): Filled {
  return new Map(
    fields.flatMap((field) => {
      const shown = inSiteUnits(field, units);
      if (field.kind !== 'number' || typeof field.value !== 'number' || shown.kind !== 'number') return [];
      return [[field.name, { shown: String(shown.value), metric: field.value }] as const];
    }),
  );
}
