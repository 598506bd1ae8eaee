import { type Figure, type Label, type Scanned, scanFigures } from './figures.ts';
import { said } from './fold.ts';
import { example } from './help.ts';
import { type TypedContext, type Wrong, wrong } from './typed.ts';
import type { Measures } from './units.ts';
import { type CommandWord, wordToType } from './words.ts';

/** Nobody types figures longer than this; what is longer was meant for somebody else. */
const LONGEST = 240;

/** The figures of a command, or what could not be read of them. `pots`: whether "fresh" and "top" belong here. */
export function figuresOf(
  name: CommandWord,
  text: string,
  labels: readonly Label[],
  { texts }: TypedContext,
  pots = false,
): Scanned | Wrong {
  const eg = example(name, texts);
  const notRead = (typed: string) => wrong(texts.say('chat.not-read', { typed: said(typed), example: eg }));
  if (text.length > LONGEST) return notRead(text);
  const scanned = scanFigures(text, labels, texts);
  const [left] = scanned.left;
  if (left !== undefined) return notRead(left);
  const [bare] = scanned.bare;
  if (bare !== undefined) return wrong(texts.say('chat.no-figure', { word: said(bare), example: eg }));
  const [pot] = scanned.pots;
  if (pot !== undefined && !pots) return notRead(wordToType(pot, texts));
  return scanned;
}

/** A place for a figure: named by a label, or known by its unit. */
export interface Place {
  readonly field: string;
  readonly labels: readonly Label[];
  /** Takes a figure without a label; with a unit of this kind, or without one when no other place is free. */
  readonly measures: Measures | null;
  /** Without it there is no command. */
  readonly needed: boolean;
}

export type Placed = {
  readonly kind: 'placed';
  readonly values: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>>;
};

/**
 * Puts figures in their places. One without label and unit is taken only when it can be but one thing; two figures for
 * one place, or one that could stand in two, are said back and not guessed.
 */
export function place(
  name: CommandWord,
  figures: readonly Figure[],
  places: readonly Place[],
  { texts }: TypedContext,
): Placed | Wrong {
  const eg = example(name, texts);
  const values: Record<string, string> = {};
  const typed: Record<string, string> = {};
  const loose: Figure[] = [];
  for (const figure of figures) {
    const where = places.find((one) =>
      figure.label !== null
        ? one.labels.includes(figure.label)
        : figure.unit !== null && one.measures === figure.unit.measures,
    );
    if (!where && figure.unit === null && figure.label === null) {
      loose.push(figure);
      continue;
    }
    if (!where) return wrong(texts.say('chat.not-read', { typed: said(figure.typed), example: eg }));
    if (values[where.field] !== undefined)
      return wrong(texts.say('chat.too-many', { typed: said(figure.typed), example: eg }));
    values[where.field] = figure.value;
    typed[where.field] = figure.typed;
  }
  const [first, second] = loose;
  if (!first) return { kind: 'placed', values, typed };
  const open = places.filter((one) => one.needed && one.measures !== null && values[one.field] === undefined);
  const [only, other] = open;
  if (!only) return wrong(texts.say('chat.too-many', { typed: said(first.typed), example: eg }));
  if (second || other)
    return wrong(texts.say('chat.which-figure', { typed: said(first.typed), example: eg }));
  return {
    kind: 'placed',
    values: { ...values, [only.field]: first.value },
    typed: { ...typed, [only.field]: first.typed },
  };
}
