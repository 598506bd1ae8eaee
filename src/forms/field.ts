import type { FieldProblem, FormValues } from '../message/form.ts';
import type { Texts } from '../texts/texts.ts';
import { parseQuantity } from '../units/parse.ts';
import type { Units } from '../units/quantity.ts';
import { quantityText } from '../units/write.ts';
import { type Filled, fieldUnit } from './field-units.ts';

/** Reads typed values one by one and collects what cannot be taken, so that a person hears of everything at once. */
export class FieldReader {
  readonly problems: FieldProblem[] = [];
  readonly #values: FormValues;
  readonly #texts: Texts;
  readonly #units: Units;
  readonly #filled: Filled;

  constructor(values: FormValues, texts: Texts, units: Units, filled: Filled) {
    this.#values = values;
    this.#texts = texts;
    this.#units = units;
    this.#filled = filled;
  }

  text(name: string, required: boolean): string {
    const value = this.#values[name];
    const text = (typeof value === 'string' ? value : (value?.[0] ?? '')).trim();
    if (required && text === '') this.problem(name, this.#texts.say('form.required'));
    return text;
  }

  /**
   * A figure in the core's own unit, from what was typed in the site's, or in any unit that was typed with it ("68 F").
   * `example` is in the core's unit.
   */
  number(name: string, example: number): number {
    const typed = this.text(name, true);
    if (typed === '') return 0;
    return this.#parse(name, typed, example) ?? 0;
  }

  optionalNumber(name: string, example: number): number | undefined {
    const typed = this.text(name, false);
    return typed === '' ? undefined : this.#parse(name, typed, example);
  }

  many(name: string): readonly string[] {
    const value = this.#values[name];
    const list = typeof value === 'string' ? [value] : (value ?? []);
    return list.filter((one) => one !== '');
  }

  problem(field: string, message: string): void {
    this.problems.push({ field, message });
  }

  #parse(name: string, typed: string, example: number): number | undefined {
    const filled = this.#filled.get(name);
    if (filled && typed === filled.shown) return filled.metric;
    const unit = fieldUnit(name);
    if (unit === null) return this.#plain(name, typed, example);
    const read = parseQuantity(typed, unit, this.#units);
    if (read.ok) return read.metric;
    const shown = quantityText(unit, example, this.#units, this.#texts.locale);
    this.problem(
      name,
      read.reason === 'not-a-number'
        ? this.#texts.say('form.number', { example: shown })
        : read.reason === 'imperial'
          ? this.#texts.say('form.imperial')
          : this.#texts.say('form.unit', { units: read.accepted.join(', ') }),
    );
    return undefined;
  }

  /** Commas are decimal points to half of the world. */
  #plain(name: string, typed: string, example: number): number | undefined {
    const plain = typed.replace(',', '.').replace('−', '-');
    if (/^-?\d+(\.\d+)?$/.test(plain)) return Number(plain);
    this.problem(name, this.#texts.say('form.number', { example }));
    return undefined;
  }
}
