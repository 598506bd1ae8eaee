import { IntlMessageFormat } from 'intl-messageformat';
import type { Params } from '../../src/briefing/caution.ts';
import { filledMark, markQuantities } from '../../src/units/mark.ts';
import type { Units } from '../../src/units/quantity.ts';
import { numberText } from '../../src/units/write.ts';

/** A text in ICU message syntax, ready to be filled. */
export interface CompiledText {
  readonly source: string;
  /** Names in braces, each once, by name. */
  readonly placeholders: readonly string[];
  /** @throws FormatError when a placeholder is given no value. */
  fill(params: Params): string;
}

/** Put around a text to decide what happens when it cannot be filled. `what`: where the text comes from. */
export type Guard = (text: CompiledText, what: string) => CompiledText;

/** A text that cannot be filled throws. */
export const unguarded: Guard = (text) => text;

/** A text that cannot be filled is told to `onFault` and shown with its placeholders, so that a warning is not lost. */
export function reporting(onFault: (what: string) => void): Guard {
  return (text, what) => ({
    ...text,
    fill(params) {
      try {
        return text.fill(params);
      } catch (error) {
        onFault(`${what}: ${error instanceof Error ? error.message : String(error)}`);
        return text.source;
      }
    },
  });
}

export interface TextFault {
  /** Where in the text, from 0. */
  readonly offset: number;
  readonly message: string;
  readonly write: string;
}

export type Compiled =
  | { readonly ok: true; readonly text: CompiledText }
  | { readonly ok: false; readonly fault: TextFault };

/** How a language writes numbers, and from which side. */
export interface Writing {
  readonly locale: string;
  readonly direction: 'ltr' | 'rtl';
}

/** One piece of a parsed message; the numbers are those of the ICU message parser. */
interface Piece {
  readonly type: number;
  value?: unknown;
  readonly options?: Readonly<Record<string, { readonly value: readonly Piece[] }>>;
}
const LITERAL = 0;
const ARGUMENT = 1;
const DATE = 3;
const TIME = 4;
const POUND = 7;

/** Put behind the name of a plain `{name}`, which is filled with characters; `{name, plural, …}` keeps the number. */
const SHOWN = '\uF8FF';

/**
 * `writing`: decides how numbers and plurals are written. Tags are plain characters. A placeholder with a unit,
 * `{c °C}`, is filled with a metric figure and shown in `units`, the unit after it. In a language from right to left
 * each filled piece stands apart, so that "5 bar" is not read as "bar 5".
 */
export function compileText(source: string, writing: Writing | string, units: Units = 'metric'): Compiled {
  const { locale, direction }: Writing =
    typeof writing === 'string' ? { locale: writing, direction: 'ltr' } : writing;
  const marked = markQuantities(source);
  if ('message' in marked) return { ok: false, fault: marked };
  let format: IntlMessageFormat;
  try {
    format = new IntlMessageFormat(marked.source, locale, undefined, { ignoreTag: true });
  } catch (error) {
    return { ok: false, fault: syntaxFault(error) };
  }
  const pieces = flat(format.getAst() as readonly Piece[]);
  const clock = pieces.find((piece) => piece.type === DATE || piece.type === TIME);
  if (clock)
    return no(
      source.indexOf(`{${String(clock.value)}`),
      'a date or time may not be formatted here: times come as text on the site clock',
      `{${String(clock.value)}} alone`,
    );
  if (pieces.some((piece) => piece.type === LITERAL && /[{}]/.test(String(piece.value))))
    return no(
      Math.max(source.search(/'[{}]|\}/), 0),
      'a brace without its partner, or one switched off by an apostrophe before it',
      "{name} with both braces; an apostrophe before a brace is written twice, ''",
    );
  const names = pieces
    .filter((piece) => piece.type !== LITERAL && piece.type !== POUND)
    .flatMap((piece) => {
      const quantity = marked.quantities.get(String(piece.value));
      if (!quantity) return [String(piece.value)];
      return quantity.kind === 'value' ? [quantity.name] : [];
    });
  const plain = pieces.filter(
    ({ type, value }) => type === ARGUMENT && !marked.quantities.has(String(value)),
  );
  const shown = new Set(plain.map(({ value }) => String(value)));
  for (const piece of plain) piece.value = `${String(piece.value)}${SHOWN}`;
  const apart = direction === 'rtl' ? isolated : (words: string) => words;
  const text: CompiledText = {
    source,
    placeholders: [...new Set(names)].sort(),
    fill(params) {
      const filled = [
        ...[...marked.quantities].map(([name, quantity]) => [
          name,
          apart(filledMark(quantity, params, units, locale)),
        ]),
        ...[...shown].flatMap((name) => {
          const value = params[name];
          const words = typeof value === 'number' ? numberText(value, locale) : value;
          return words === undefined ? [] : [[`${name}${SHOWN}`, apart(words)]];
        }),
      ];
      return String(format.format({ ...params, ...Object.fromEntries(filled) }));
    },
  };
  return { ok: true, text };
}

/** Between FSI and PDI: what stands there does not turn the words around it (Unicode UAX 9). */
const isolated = (words: string): string => (words === '' ? '' : `\u2068${words}\u2069`);

function flat(pieces: readonly Piece[]): readonly Piece[] {
  return pieces.flatMap((piece) => [
    piece,
    ...Object.values(piece.options ?? {}).flatMap((option) => flat(option.value)),
  ]);
}

const faults: Readonly<Record<string, readonly [message: string, write: string]>> = {
  EXPECT_ARGUMENT_CLOSING_BRACE: ['a brace is opened and not closed', '{name} with both braces'],
  UNCLOSED_QUOTE_IN_ARGUMENT_STYLE: ['a quote is opened and not closed', 'the quote twice, or none'],
  EMPTY_ARGUMENT: ['there is no name between the braces', 'a name between them, such as {rig}'],
  MALFORMED_ARGUMENT: [
    'a brace is not closed, or the name in it has a space or a sign',
    'one word, such as {rig}',
  ],
  INVALID_ARGUMENT_TYPE: [
    'the word after the comma is not known',
    '{name}, {name, number} or {name, plural, …}',
  ],
  MISSING_OTHER_CLAUSE: ['the choices have no "other"', 'other {…} as the last choice'],
};

function syntaxFault(error: unknown): TextFault {
  if (!(error instanceof Error)) throw error;
  const location =
    'location' in error ? (error.location as { readonly start?: { readonly offset?: number } }) : {};
  const [message, write] = faults[error.message] ?? [
    `the text cannot be read (${error.message})`,
    'plain words with placeholders such as {rig}',
  ];
  return { offset: location.start?.offset ?? 0, message, write };
}

function no(offset: number, message: string, write: string): Compiled {
  return { ok: false, fault: { offset: Math.max(offset, 0), message, write } };
}
