import type { Texts } from '../texts/texts.ts';
import { wordsOf } from './fold.ts';
import { type TypedUnit, typedUnit } from './units.ts';
import { type InsideWord, insideNames, phraseAt, phrases } from './words.ts';

/** What a figure can be named as: by a word of the language, or by a sign that all of them share. */
export type Label =
  | Extract<InsideWord, 'thinner' | 'air' | 'steel' | 'wet' | 'humidity'>
  | 'a'
  | 'b'
  | 'wbgt';
const signs: Readonly<Record<string, Label>> = { a: 'a', b: 'b', wbgt: 'wbgt', rh: 'humidity' };

export interface Figure {
  readonly label: Label | null;
  /** Null: no unit was typed, and the site's is meant. */
  readonly unit: TypedUnit | null;
  /** As it is said back. */
  readonly typed: string;
  /** As a form's field takes it. */
  readonly value: string;
}

export interface Scanned {
  readonly figures: readonly Figure[];
  readonly pots: readonly ('fresh' | 'top')[];
  /** Labels with nothing behind them, as typed. */
  readonly bare: readonly string[];
  /** What could not be read, as typed. Nothing is done with any of it left over. */
  readonly left: readonly string[];
}

const SPACE = /[\s;,:=@]+/y;
const FIGURE = /[-−+]?(?:\d+\s+\d+\s*\/\s*\d+|\d+\s*\/\s*\d+|\d+(?:[.,]\d+)?|\.\d+)/y;
const UNIT =
  /\s*((?:us|u\.s\.|imp\.?|imperial|uk)\s*gal[\p{L}\p{M}]*|deg(?:rees?)?\.?\s*[cf](?!\p{L})|°\s*[cf](?!\p{L})|°|%\s*rh(?!\p{L})|%|[\p{L}\p{M}]+[²³]?)/iuy;
const WORD = /[\p{L}\p{M}]+/uy;
const JUNK = /\S+/y;
/** A figure ends where nothing of its own can follow: not at the first point of "10.5.2", not before "-25" in "20-25". */
const END = /$|[\s;:=]|,(?!\d)|[.!?)]+(?=\s|$)/y;
const END_OF_UNIT = /$|[\s;:=\d]|,(?!\d)|[.!?)]+(?=\s|$)/y;

/** Takes a line apart into figures with their labels and units, and words that are known; order is free. */
export function scanFigures(text: string, labels: readonly Label[], texts: Texts): Scanned {
  const known = phrases(insideNames, texts);
  const figures: Figure[] = [];
  const pots: ('fresh' | 'top')[] = [];
  const bare: string[] = [];
  const left: string[] = [];
  let pending: { readonly label: Label; readonly typed: string } | null = null;
  let at = 0;
  const take = (pattern: RegExp): string | null => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    return match ? match[0] : null;
  };
  while (at < text.length) {
    const space = take(SPACE);
    if (space !== null) {
      at += space.length;
      continue;
    }
    const from = at;
    const number = take(FIGURE);
    if (number !== null) {
      at += number.length;
      const unit = unitAt(text, at, texts);
      at += unit?.length ?? 0;
      if (take(unit ? END_OF_UNIT : END) === null) {
        at = from;
        left.push(take(JUNK) ?? number);
        at += left.at(-1)?.length ?? 1;
        continue;
      }
      const plain = number.replace(/^([-−+]?)\./, '$10.');
      const value = unit ? `${plain} ${unit.unit.sign}`.trim() : plain;
      figures.push({
        label: pending?.label ?? null,
        unit: unit?.unit ?? null,
        typed: text.slice(from, at),
        value,
      });
      pending = null;
      continue;
    }
    const word = take(WORD);
    if (word !== null) {
      const words = wordsOf(text.slice(from));
      const phrase = phraseAt(words, 0, known);
      const folded = words[0]?.folded ?? '';
      const end = phrase ? (words[phrase.words.length - 1]?.to ?? word.length) : word.length;
      at = from + end;
      const typed = text.slice(from, at);
      const label = labelOf(phrase?.name ?? folded);
      if (phrase?.name === 'fresh' || phrase?.name === 'top') pots.push(phrase.name);
      else if (label !== null && labels.includes(label)) {
        if (pending) bare.push(pending.typed);
        pending = { label, typed };
      } else left.push(typed);
      continue;
    }
    const junk = take(JUNK) ?? text.slice(at, at + 1);
    at += junk.length;
    if (!/^[.!?()"'“”’]+$/.test(junk)) left.push(junk);
  }
  if (pending) bare.push(pending.typed);
  return { figures, pots, bare, left };
}

function labelOf(name: string): Label | null {
  if (name === 'thinner' || name === 'air' || name === 'steel' || name === 'wet' || name === 'humidity')
    return name;
  return Object.hasOwn(signs, name) ? (signs[name] ?? null) : null;
}

/** The unit behind a figure. A word that touches the figure must be one; a word apart from it may be something else. */
function unitAt(
  text: string,
  at: number,
  texts: Texts,
): { readonly unit: TypedUnit; readonly length: number } | null {
  UNIT.lastIndex = at;
  const match = UNIT.exec(text);
  if (!match) return null;
  const written = match[1] ?? '';
  const touches = match[0] === written;
  const unit = typedUnit(written, texts);
  if (unit) return { unit, length: match[0].length };
  return touches ? { unit: { measures: 'other', sign: written }, length: match[0].length } : null;
}
