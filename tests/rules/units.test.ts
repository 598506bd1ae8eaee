import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { packageRoot } from '../../adapters/files/package-root.ts';

const en = join(packageRoot(), 'templates', 'en');

/** Texts by dotted id. */
function leaves(value: unknown, path: string): readonly (readonly [id: string, text: string])[] {
  if (typeof value === 'string') return [[path, value]];
  return Object.entries(value as object).flatMap(([key, one]) =>
    leaves(one, path === '' ? key : `${path}.${key}`),
  );
}

const messages = leaves(parse(readFileSync(join(en, 'messages.yaml'), 'utf8')), '');
const cautions = readdirSync(join(en, 'cautions')).map(
  (name) => [name, readFileSync(join(en, 'cautions', name), 'utf8')] as const,
);

/** A number or a placeholder with a unit behind it that the text layer would not turn into the site's. */
const bare =
  /(?:\d|\})\s?(?:°C|°F|bar\b|psi\b|µm|mils?\b|mm\b|m²|m³|ft\b|ft²|L\b|gal\b|m\/s|mph\b|kg\b|lb\b|inch)/u;

/** Inputs and formulas of the page that explains figures are metric on every site, and the page says so. */
const worked = (id: string) => /^why\./.test(id) && !/\.(result|over|short)$/.test(id);
/** Coming from the site pack or a standard, not a figure of today. */
const quoted: readonly string[] = [];

describe('a figure with a unit is written {c °C} or {=7 bar}, so that no text can forget the units of the site', () => {
  test.each(messages.filter(([id]) => !worked(id) && !quoted.includes(id)))('%s', (_id, text) => {
    expect(text.replace(/\{=[^}]*\}|\{\w+ \S+\}/gu, '¤')).not.toMatch(bare);
  });

  test.each(cautions)('%s', (_name, text) => {
    expect(text.replace(/\{=[^}]*\}|\{\w+ \S+\}/gu, '¤')).not.toMatch(bare);
  });
});
