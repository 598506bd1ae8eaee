import type { FieldProblem, FormValues } from '../message/form.ts';
import type { Texts } from '../texts/texts.ts';

/** Reads typed values one by one and collects what cannot be taken, so that a person hears of everything at once. */
export class FieldReader {
  readonly problems: FieldProblem[] = [];
  readonly #values: FormValues;
  readonly #texts: Texts;

  constructor(values: FormValues, texts: Texts) {
    this.#values = values;
    this.#texts = texts;
  }

  text(name: string, required: boolean): string {
    const value = this.#values[name];
    const text = (typeof value === 'string' ? value : (value?.[0] ?? '')).trim();
    if (required && text === '') this.problem(name, this.#texts.say('form.required'));
    return text;
  }

  /** Commas are decimal points to half of the world. */
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
    const plain = typed.replace(',', '.').replace('−', '-');
    if (/^-?\d+(\.\d+)?$/.test(plain)) return Number(plain);
    this.problem(name, this.#texts.say('form.number', { example }));
    return undefined;
  }
}
