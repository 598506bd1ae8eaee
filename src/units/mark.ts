import { isQuantityUnit, type QuantityUnit, quantities, quantityUnits, type Units } from './quantity.ts';
import { figureText, quantityText } from './write.ts';

/** One quantity of a text: a placeholder with its unit, or a fixed figure. */
export type Marked =
  | { readonly kind: 'value'; readonly name: string; readonly unit: QuantityUnit }
  | { readonly kind: 'fixed'; readonly metric: string; readonly us: string };

/** A text whose quantities were given names of their own. */
export interface MarkedText {
  /** As long as what it was made from, so that places in it stay where they are. */
  readonly source: string;
  /** By the name it has in `source`. */
  readonly quantities: ReadonlyMap<string, Marked>;
}

export interface MarkFault {
  readonly offset: number;
  readonly message: string;
  readonly write: string;
}

/** Characters of Unicode's private use area: no word has them, and ICU takes them as part of a name. */
const FIRST = 0xe000;
/** A fixed figure given twice may differ by this much: 11 m and 35 ft are one distance, 11 m and 30 ft are not. */
const NEAR = 0.05;

/**
 * Finds the quantities of a text in ICU message syntax: `{bar bar}` or `{c °C}` is the value `bar` or `c` with its unit,
 * `{=7 bar}` a fixed figure, `{=11 m|35 ft}` one that has a round figure of its own in US units. All of these are no
 * ICU syntax, so nothing else can be meant. A branch of a choice, such as `pot {paint L}`, is words and left alone.
 */
export function markQuantities(text: string): MarkedText | MarkFault {
  const found = new Map<string, Marked>();
  const depth: ('argument' | 'words')[] = [];
  let out = '';
  for (let i = 0; i < text.length; i += 1) {
    const here = text[i];
    const inside = depth.at(-1) ?? 'words';
    if (here === '{' && inside === 'words') {
      const close = text.indexOf('}', i);
      const body = close < 0 ? '' : text.slice(i + 1, close);
      const marked = readMark(body);
      if (marked !== null && 'message' in marked) return { ...marked, offset: i };
      if (marked !== null) {
        const name = nameOf(marked, found);
        found.set(name, marked);
        out += `{${name.padEnd(body.length)}}`;
        i = close;
        continue;
      }
    }
    if (here === '{') depth.push(inside === 'words' ? 'argument' : 'words');
    if (here === '}') depth.pop();
    out += here;
  }
  return { source: out, quantities: found };
}

function nameOf(marked: Marked, found: ReadonlyMap<string, Marked>): string {
  if (marked.kind === 'value')
    return marked.name + String.fromCharCode(FIRST + quantityUnits.indexOf(marked.unit));
  return String.fromCharCode(FIRST + 0x400 + found.size);
}

function readMark(body: string): Marked | Omit<MarkFault, 'offset'> | null {
  const fixed = /^\s*=(.*)$/s.exec(body);
  if (fixed) return readFixed(fixed[1] ?? '');
  const [, name = '', unit = ''] = /^\s*(\w+)\s+([^\s{},]+)\s*$/.exec(body) ?? [];
  if (name === '') return null;
  if (isQuantityUnit(unit)) return { kind: 'value', name, unit };
  return {
    message: `"${unit}" is no unit for a placeholder`,
    write: `{${name}}, or one of ${quantityUnits.join(', ')} after it`,
  };
}

function readFixed(body: string): Marked | Omit<MarkFault, 'offset'> {
  const [metric = '', us, ...more] = body.split('|').map((part) => part.trim());
  const [, figure = '', unit = ''] = /^(-?\d+(?:\.\d+)?)\s+(\S+)$/.exec(metric) ?? [];
  if (!isQuantityUnit(unit) || more.length > 0)
    return {
      message: 'this is no figure with a unit',
      write: `{=7 bar} or {=11 m|35 ft}; units are ${quantityUnits.join(', ')}`,
    };
  const value = Number(figure);
  const exact = quantityText(unit, value, 'us', 'en');
  if (us === undefined)
    return { kind: 'fixed', metric: `${figure} ${quantities[unit].metric.sign}`, us: exact };
  const [, round = '', sign = ''] = /^(-?\d+(?:\.\d+)?)\s+(\S+)$/.exec(us) ?? [];
  const quantity = quantities[unit];
  if (
    sign !== quantity.us.sign ||
    Math.abs(Number(round) - quantity.toUs(value)) > Math.abs(quantity.toUs(value)) * NEAR
  )
    return {
      message: `${metric} is ${exact}, not ${us}`,
      write: `{=${metric}|${exact}} or a round figure close to it`,
    };
  return { kind: 'fixed', metric: `${figure} ${quantity.metric.sign}`, us };
}

/** What stands for a quantity when it is filled: a number with its unit; words such as "none" or "-" as they are. */
export function filledMark(
  marked: Marked,
  params: Readonly<Record<string, string | number>>,
  units: Units,
  locale: string,
): string {
  if (marked.kind === 'fixed') return inWriting(units === 'us' ? marked.us : marked.metric, locale);
  const value = params[marked.name];
  if (value === undefined) throw new Error(`The value of {${marked.name} ${marked.unit}} is not given.`);
  return typeof value === 'string' ? value : quantityText(marked.unit, value, units, locale);
}

/** A fixed figure with the decimal sign of the reader, as many decimals as it was written with. */
function inWriting(fixed: string, locale: string): string {
  return fixed.replace(/^-?\d+(?:\.(\d+))?/, (figure, behind: string | undefined) => {
    const digits = behind?.length ?? 0;
    const format = { minimumFractionDigits: digits, maximumFractionDigits: digits, useGrouping: false };
    return new Intl.NumberFormat(locale, format).format(Number(figure));
  });
}

export { figureText };
