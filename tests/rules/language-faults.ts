import { IntlMessageFormat } from 'intl-messageformat';
import { markQuantities } from '../../src/units/mark.ts';
import type { WrittenTexts } from './language-words.ts';

/** What a translation lacks, has too much of or left in English, a line each. */
export function languageFaults(
  english: WrittenTexts,
  own: WrittenTexts,
  locale: string,
  sameAllowed: readonly string[] = [],
): readonly string[] {
  const missing = [...english.keys()].filter((id) => !own.has(id)).map((id) => `${id}: no words`);
  const orphans = [...own.keys()].filter((id) => !english.has(id)).map((id) => `${id}: not in English`);
  const wrong = [...english].flatMap(([id, text]) => {
    const other = own.get(id);
    if (other === undefined) return [];
    const faults = shapeFaults(text, other, locale);
    const left = other === text && hasWords(text) && !sameAllowed.includes(id) ? ['still in English'] : [];
    return [...faults, ...left].map((fault) => `${id}: ${fault}`);
  });
  return [...missing, ...orphans, ...wrong];
}

interface Shape {
  /** `{c °C}` and `{=7 bar|100 psi}`: placeholder with unit, fixed figure. */
  readonly quantities: ReadonlySet<string>;
  /** By name: what each placeholder is used as, with the cases of its choices. */
  readonly plain: ReadonlySet<string>;
  readonly selects: ReadonlyMap<string, ReadonlySet<string>>;
  readonly plurals: ReadonlyMap<string, ReadonlySet<string>>;
}

function shapeFaults(english: string, own: string, locale: string): readonly string[] {
  const theirs = shapeOf(english);
  const mine = shapeOf(own);
  const [lost, more] = differ(theirs.quantities, mine.quantities);
  const faults = [
    ...lost.map((one) => `lost {${one}}`),
    ...more.map((one) => `{${one}} is not in the English`),
  ];
  for (const name of theirs.plain)
    if (!mine.plain.has(name) && !mine.plurals.has(name)) faults.push(`lost {${name}}`);
  for (const name of mine.plain)
    if (!theirs.plain.has(name) && !theirs.plurals.has(name)) faults.push(`{${name}} is not in the English`);
  for (const [name, cases] of theirs.selects) {
    const [gone, extra] = differ(cases, mine.selects.get(name) ?? new Set());
    faults.push(
      ...gone.map((one) => `{${name}} has no case ${one}`),
      ...extra.map((one) => `{${name}} has a case ${one}`),
    );
  }
  for (const name of mine.selects.keys())
    if (!theirs.selects.has(name)) faults.push(`{${name}} is no choice in the English`);
  for (const [name, cases] of theirs.plurals) {
    const have = mine.plurals.get(name);
    if (!have) faults.push(`{${name}} has no plural`);
    else
      faults.push(
        ...[...cases]
          .filter((one) => one.startsWith('=') && !have.has(one))
          .map((one) => `{${name}} has no case ${one}`),
      );
  }
  const { needed, known } = categories(locale);
  for (const [name, cases] of mine.plurals) {
    if (!theirs.plurals.has(name) && !theirs.plain.has(name))
      faults.push(`{${name}} is no number in the English`);
    // "# min" needs no forms: an abbreviation has one. What English bends, the others bend as well.
    const bends = theirs.plurals.get(name)?.has('one') ?? true;
    faults.push(
      ...needed.filter((one) => bends && !cases.has(one)).map((one) => `{${name}} has no plural ${one}`),
      ...[...cases]
        .filter((one) => !one.startsWith('=') && !known.includes(one))
        .map((one) => `{${name}} has a plural ${one}, which ${locale} has not`),
    );
  }
  return faults;
}

function differ(theirs: ReadonlySet<string>, mine: ReadonlySet<string>): readonly [string[], string[]] {
  return [[...theirs].filter((one) => !mine.has(one)), [...mine].filter((one) => !theirs.has(one))];
}

/** Element types of an ICU message tree. */
const PLAIN = 1;
const NUMBER = 2;
const SELECT = 5;
const PLURAL = 6;

interface Piece {
  readonly type: number;
  readonly value?: unknown;
  readonly options?: Readonly<Record<string, { readonly value: readonly Piece[] }>>;
}

function shapeOf(text: string): Shape {
  const marked = markQuantities(text);
  if ('message' in marked) throw new Error(`${marked.message}: ${text}`);
  const tree = new IntlMessageFormat(marked.source, 'en', undefined, { ignoreTag: true }).getAst();
  const pieces = flat(tree as readonly Piece[]);
  const quantities = [...marked.quantities.values()].map((one) =>
    one.kind === 'value' ? `${one.name} ${one.unit}` : `=${one.metric}|${one.us}`,
  );
  const cases = (type: number) => {
    const found = new Map<string, Set<string>>();
    for (const piece of pieces.filter((one) => one.type === type)) {
      const known = found.get(String(piece.value)) ?? new Set<string>();
      for (const key of Object.keys(piece.options ?? {})) known.add(key);
      found.set(String(piece.value), known);
    }
    return found;
  };
  return {
    quantities: new Set(quantities),
    plain: new Set(
      pieces
        .filter(
          ({ type, value }) => (type === PLAIN || type === NUMBER) && !marked.quantities.has(String(value)),
        )
        .map(({ value }) => String(value)),
    ),
    selects: cases(SELECT),
    plurals: cases(PLURAL),
  };
}

function flat(pieces: readonly Piece[]): readonly Piece[] {
  return pieces.flatMap((piece) => [
    piece,
    ...Object.values(piece.options ?? {}).flatMap(({ value }) => flat(value)),
  ]);
}

/** The plural forms a language has, and those that counting batches, minutes and people needs. */
function categories(locale: string): {
  readonly needed: readonly string[];
  readonly known: readonly string[];
} {
  const rules = new Intl.PluralRules(locale);
  const needed = new Set(['other', ...Array.from({ length: 1000 }, (_, n) => rules.select(n))]);
  return { needed: [...needed], known: ['other', ...rules.resolvedOptions().pluralCategories] };
}

/** Short for the same thing in every language on a site. */
const everywhere = ['Potbell', 'WBGT', 'PIN', 'CSV', 'JSON', 'min', 'max', 'bar', 'hPa'];

/** False for placeholders, figures, units and signs alone: there is nothing to translate. */
function hasWords(text: string): boolean {
  const bare = text
    .replace(/\{=[^}]*\}/g, '')
    .replace(/\{\w+(?: [^\s{},]+)?\}/g, '')
    .replace(/\{\w+,\s*\w+,|\b[\w=]+\s*(?=\{)/g, '');
  const words = bare.match(/\p{L}{3,}/gu) ?? [];
  return words.some((word) => !everywhere.includes(word));
}
