import type { Texts } from '../texts/texts.ts';
import { type QuantityUnit, quantities } from '../units/quantity.ts';
import { fold } from './fold.ts';
import { wordsFor } from './words.ts';

/** What a unit measures, as far as typed commands ask for it; `other`: a unit that belongs to none of them. */
export type Measures = 'temperature' | 'volume' | 'percent' | 'other';

export interface TypedUnit {
  readonly measures: Measures;
  /** As the fields of the forms read it; '' for a bare degree sign, which is a degree of the site's. */
  readonly sign: string;
}

const celsius: TypedUnit = { measures: 'temperature', sign: '°C' };
const fahrenheit: TypedUnit = { measures: 'temperature', sign: '°F' };
const degree: TypedUnit = { measures: 'temperature', sign: '' };
const litre: TypedUnit = { measures: 'volume', sign: 'L' };
const gallon: TypedUnit = { measures: 'volume', sign: 'gal' };

const fixed: Readonly<Record<string, TypedUnit>> = {
  c: celsius,
  '°c': celsius,
  degc: celsius,
  celsius,
  f: fahrenheit,
  '°f': fahrenheit,
  degf: fahrenheit,
  fahrenheit,
  '°': degree,
  deg: degree,
  l: litre,
  gal: gallon,
  usgal: gallon,
  usgals: gallon,
  usgallon: gallon,
  usgallons: gallon,
  '%rh': { measures: 'percent', sign: '%' },
  '%': { measures: 'percent', sign: '%' },
};

const foreign: ReadonlySet<string> = new Set(
  (Object.keys(quantities) as QuantityUnit[])
    .flatMap((unit) => [quantities[unit].metric.sign, quantities[unit].us.sign, 'ml'])
    .map(fold)
    .filter((sign) => !Object.hasOwn(fixed, sign)),
);

/** A unit as people type it, in small letters or capitals; null when the word is none. */
export function typedUnit(written: string, texts: Texts): TypedUnit | null {
  const plain = fold(written)
    .replace(/[\s.]/g, '')
    .replace(/^degrees?/, 'deg');
  if (/^(imp|uk)/.test(plain)) return { measures: 'volume', sign: 'imp gal' };
  if (Object.hasOwn(fixed, plain)) return fixed[plain] ?? null;
  if (wordsFor('litres', texts).some((one) => fold(one) === plain)) return litre;
  if (wordsFor('gallons', texts).some((one) => fold(one) === plain)) return gallon;
  return foreign.has(plain) ? { measures: 'other', sign: written.trim() } : null;
}
