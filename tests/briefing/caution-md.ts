import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { IntlMessageFormat } from 'intl-messageformat';
import type { Params } from '../../src/briefing/caution.ts';

/** A plain reader of the caution words, apart from the program's own, so that a fault in one shows in the other. */
export interface Words {
  readonly title: string;
  readonly why: string;
  readonly each: string | null;
  readonly steps: readonly string[];
  readonly more: readonly string[];
  readonly questions: readonly Question[];
}

export interface Question {
  readonly id: string;
  readonly ask: string;
  readonly choices: readonly { readonly right: boolean; readonly text: string }[];
  readonly because: string;
}

export const folder = (path: string): string => fileURLToPath(new URL(`../../${path}/`, import.meta.url));

export function idsIn(path: string, ending: string): readonly string[] {
  return readdirSync(folder(path))
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, -ending.length))
    .sort();
}

const read = new Map<string, Words>();

export function readWords(id: string): Words {
  const words =
    read.get(id) ?? parseWords(id, readFileSync(`${folder('templates/en/cautions')}${id}.md`, 'utf8'));
  read.set(id, words);
  return words;
}

export function parseWords(id: string, text: string): Words {
  const [head = '', ...parts] = text.split(/^## /m);
  const sections = new Map(
    parts.map((part) => {
      const [name = '', ...rest] = part.split('\n');
      return [name.trim(), rest.join('\n').trim()] as const;
    }),
  );
  const known = ['Why today', 'Each', 'Do', 'More', 'Ask'];
  for (const name of sections.keys())
    if (!known.includes(name)) throw new Error(`${id}: unknown section ${name}`);
  const need = (name: string): string => {
    const found = sections.get(name);
    if (!found) throw new Error(`${id}: no section ${name}`);
    return found;
  };
  const title = /^# (.+)$/m.exec(head)?.[1];
  if (!title) throw new Error(`${id}: no title`);
  return {
    title,
    why: need('Why today'),
    each: sections.get('Each') ?? null,
    steps: items(id, need('Do')),
    more: items(id, sections.get('More') ?? ''),
    questions: (sections.get('Ask') ?? '')
      .split(/^### /m)
      .slice(1)
      .map((block) => question(id, block)),
  };
}

const compiled = new Map<string, IntlMessageFormat>();

/** Units as the metric reader sees them: `{c °C}` is the placeholder c and its unit, `{=7 bar|100 psi}` a fixed figure. */
export function metric(template: string): string {
  return template
    .replace(/\{=([^|}]+)(?:\|[^}]*)?\}/g, (_, figure: string) => figure.replace('Δ', ''))
    .replace(/\{(\w+) (?:Δ?(°C)|(bar|L\/min|L|µm|m²|mm|m³\/min|m³|m\/s|m))\}/g, '{$1} $2$3');
}

function compile(template: string): IntlMessageFormat {
  const known = compiled.get(template) ?? new IntlMessageFormat(metric(template), 'en');
  compiled.set(template, known);
  return known;
}

export function fill(template: string, params: Params): string {
  return String(compile(template).format(params));
}

interface Argument {
  readonly name: string;
  /** Cases of a select, `other` left out; none for a plain placeholder or a plural. */
  readonly cases: readonly string[];
}

/** Every argument of a template, those inside select and plural branches included. */
export function argumentsOf(template: string): readonly Argument[] {
  return walk(compile(template).getAst());
}

/** Names of the placeholders of one template. */
export function placeholders(template: string): ReadonlySet<string> {
  return new Set(argumentsOf(template).map(({ name }) => name));
}

/** Element types of an ICU message tree: 0 is literal text, 5 a select, 7 the # of a plural. */
const LITERAL = 0;
const SELECT = 5;
const POUND = 7;

function walk(node: unknown): readonly Argument[] {
  if (Array.isArray(node)) return node.flatMap(walk);
  if (typeof node !== 'object' || node === null) return [];
  const { type, value, options = {} } = node as { type?: number; value?: unknown; options?: object };
  const inside = Object.values(options).flatMap((option) => walk((option as { value: unknown }).value));
  if (type === undefined || type === LITERAL || type === POUND) return inside;
  const cases = type === SELECT ? Object.keys(options).filter((key) => key !== 'other') : [];
  return [{ name: String(value), cases }, ...inside];
}

function items(id: string, section: string): readonly string[] {
  const lines = section.split('\n').filter((line) => line.trim() !== '');
  return lines.map((line) => {
    if (!line.startsWith('- ')) throw new Error(`${id}: not a list line: ${line}`);
    return line.slice(2);
  });
}

function question(id: string, block: string): Question {
  const [name = '', ...lines] = block.split('\n').map((line) => line.trim());
  const rest = lines.filter((line) => line !== '');
  const choices = rest.flatMap((line) => {
    const choice = /^- \[([ x])\] (.+)$/.exec(line);
    return choice ? [{ right: choice[1] === 'x', text: choice[2] ?? '' }] : [];
  });
  const because = rest.filter((line) => line.startsWith('> ')).map((line) => line.slice(2));
  const ask = rest.filter((line) => !line.startsWith('- [') && !line.startsWith('> '));
  if (ask.length !== 1 || because.length !== 1) throw new Error(`${id}/${name}: one question and one reason`);
  return { id: name, ask: ask[0] ?? '', choices, because: because[0] ?? '' };
}
