import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadTexts, type TextsOptions } from '../../adapters/files/load-texts.ts';
import { formatProblem, type PackProblem } from '../../adapters/files/problem.ts';
import { textIds } from '../../src/texts/text-ids.ts';
import { tempDir } from './temp-dir.ts';

const declared = {
  'app.name': [],
  'batch.use-by': ['rig', 'time'],
  'batch.litres': ['litres'],
} as const;

const caution = '# Heat\n## Why today\n{airC} °C.\n## Do\n- Drink.\n- Rest.\n';

const english: Readonly<Record<string, string>> = {
  'en/language.yaml': 'name: English\ndirection: ltr\nlocale: en-GB\ndrafted: by-hand\n',
  'en/messages.yaml':
    'app.name: Potbell\nbatch:\n  use-by: "{rig}: use by {time}"\n  litres: "{litres, plural, one {# litre} other {# litres}}"\n',
  'en/cautions/heat.md': caution,
};

function folder(changes: Readonly<Record<string, string | null>> = {}): string {
  const dir = tempDir();
  for (const [name, text] of Object.entries({ ...english, ...changes })) {
    if (text === null) continue;
    mkdirSync(dirname(join(dir, name)), { recursive: true });
    writeFileSync(join(dir, name), text);
  }
  return dir;
}

function load(changes: Readonly<Record<string, string | null>> = {}, options: TextsOptions = {}) {
  const dir = folder(changes);
  const texts = loadTexts(dir, { declared, ...options });
  const said = (problems: readonly PackProblem[]) =>
    problems.map((problem) => formatProblem(problem).replaceAll(`${dir}/`, ''));
  /** The ids of this test are not the program's. */
  const say = (
    language: string,
    id: string,
    params: Readonly<Record<string, string | number>> = {},
  ): string => (texts.textsFor(language).say as (id: string, params: object) => string)(id, params);
  return { ...texts, said: said(texts.problems), warned: said(texts.warnings), say };
}

describe('the texts that come with Potbell', () => {
  test('have no problems and no warnings', () => {
    const texts = loadTexts();
    expect(texts.problems.map(formatProblem)).toEqual([]);
    expect(texts.warnings.map(formatProblem)).toEqual([]);
    expect(texts.languages).toContainEqual({
      code: 'en',
      name: 'English',
      direction: 'ltr',
      locale: 'en-GB',
      drafted: 'by-hand',
    });
    const plain = Object.entries(textIds).filter(([, names]) => (names as readonly string[]).length === 0);
    const say = texts.textsFor('en').say as (id: string) => string;
    expect(plain.length).toBeGreaterThan(0);
    for (const [id] of plain) expect([id, say(id).trim()]).not.toEqual([id, '']);
  });
});

describe('good texts', () => {
  test('are said with their placeholders filled, flat or nested ids alike', () => {
    const texts = load();
    expect(texts.said).toEqual([]);
    expect(texts.say('en', 'app.name')).toBe('Potbell');
    expect(texts.say('en', 'batch.use-by', { rig: 'Rig 1', time: '09:40' })).toBe('Rig 1: use by 09:40');
    expect(texts.say('en', 'batch.litres', { litres: 1 })).toBe('1 litre');
    expect(texts.textsFor('en').caution('heat').reason({ airC: 33 })).toBe('33 °C.');
  });

  test('a tag is plain characters, not markup', () => {
    const texts = load({
      'en/messages.yaml': `${english['en/messages.yaml']}`.replace('Potbell', '"<b>Potbell</b>"'),
    });
    expect(texts.say('en', 'app.name')).toBe('<b>Potbell</b>');
  });

  test('an unknown caution throws and says which file to write', () => {
    expect(() => load().textsFor('en').caution('cold')).toThrow(
      /no words for the caution "cold".*en\/cautions\/cold\.md/,
    );
  });
});

describe('another language', () => {
  const portuguese = {
    'pt/language.yaml': 'name: Português\ndirection: ltr\nlocale: pt-PT\ndrafted: by-hand\n',
    'pt/messages.yaml': 'batch:\n  litres: "{litres, number} litros"\n',
  };

  test('falls back to English text by text, with a warning', () => {
    const texts = load(portuguese);
    expect(texts.said).toEqual([]);
    expect(texts.warned).toEqual(
      [
        'pt/cautions/heat.md:1:1: this caution is not translated, the English one is shown. Found nothing. Write: this file, with # title, ## Why today and ## Do',
        'pt/messages.yaml:1:1 app.name: this text is missing, the English one is shown. Found nothing. Write: app.name and its words',
        'pt/messages.yaml:1:1 batch.use-by: this text is missing, the English one is shown. Found nothing. Write: batch.use-by and its words',
      ].sort((a, b) => Number(a.includes('cautions')) - Number(b.includes('cautions'))),
    );
    expect(texts.say('pt', 'app.name')).toBe('Potbell');
    expect(texts.textsFor('pt').caution('heat').title).toBe('Heat');
  });

  test('writes numbers in its own way', () => {
    expect(load(portuguese).say('pt', 'batch.litres', { litres: 1234.5 })).toBe(
      `${new Intl.NumberFormat('pt-PT').format(1234.5)} litros`,
    );
  });

  test('a language nobody wrote is the site language, then English', () => {
    expect(load(portuguese).textsFor('fi').language).toBe('en');
    expect(load(portuguese, { siteLanguage: 'pt' }).textsFor('fi').language).toBe('pt');
    expect(load(portuguese).textsFor('pt-BR').language).toBe('pt');
    expect(load(portuguese, { siteLanguage: 'pt' }).say('fi', 'app.name')).toBe('Potbell');
  });

  test('is written from right to left when it says so', () => {
    const hebrew = {
      'he/language.yaml': 'name: עברית\ndirection: rtl\nlocale: he-IL\ndrafted: by-hand\n',
      'he/messages.yaml': 'app.name: Potbell\n',
    };
    expect(load(hebrew).textsFor('he').direction).toBe('rtl');
  });

  test('a translated caution that lost a step, a number or a question is refused and English is shown', () => {
    const texts = load({
      ...portuguese,
      'pt/cautions/heat.md': '# Calor\n## Why today\nQuente.\n## Do\n- Beba.\n',
    });
    expect(texts.said).toEqual([
      'pt/cautions/heat.md:1:1 Do: the English has 2 steps. Found "1 steps". Write: one step for each step of the English',
      'pt/cautions/heat.md:1:1 Why today: the English has {airC} here. Found "no placeholders". Write: the same placeholders as the English: {airC}',
    ]);
    expect(texts.textsFor('pt').caution('heat').title).toBe('Heat');
  });
});

describe('broken texts say where and how to mend them', () => {
  const rest = '  litres: "{litres}"\n';
  const messages = (useBy: string) => `app.name: Potbell\nbatch:\n  use-by: ${useBy}\n${rest}`;

  test.each<[string, Readonly<Record<string, string | null>>, readonly string[]]>([
    [
      'a brace not closed',
      { 'en/messages.yaml': messages('"{rig}: use by {time"') },
      [
        'en/messages.yaml:3:26 batch.use-by: a brace is opened and not closed. Found "{rig}: use by {time". Write: {name} with both braces',
      ],
    ],
    [
      'choices without "other", in a block of lines',
      { 'en/messages.yaml': messages('|\n    {rig}\n    {time, select, late {x}}') },
      [
        'en/messages.yaml:5:28 batch.use-by: the choices have no "other". Found "{rig} {time, select, late {x}}". Write: other {…} as the last choice',
      ],
    ],
    [
      'a missing id',
      { 'en/messages.yaml': `batch:\n  use-by: "{rig} {time}"\n${rest}` },
      ['en/messages.yaml:1:1 app.name: this text is missing. Found nothing. Write: app.name and its words'],
    ],
    [
      'an unknown id',
      { 'en/messages.yaml': `${messages('"{rig} {time}"')}  uze-by: x\n` },
      [
        'en/messages.yaml:5:3 batch.uze-by: no part of the program asks for this text. Found "x". Write: batch.use-by, if that was meant; or take it out',
      ],
    ],
    [
      'an unknown placeholder, which leaves one unused',
      { 'en/messages.yaml': messages('"{rigg}: use by {time}"') },
      [
        'en/messages.yaml:3:11 batch.use-by: nothing is given for the placeholder {rigg}. Found "{rigg}: use by {time}". Write: {rig}, if that was meant; given are {rig}, {time}',
        'en/messages.yaml:3:11 batch.use-by: the placeholder {rig} is not used. Found "{rigg}: use by {time}". Write: {rig} somewhere in the text',
      ],
    ],
    [
      'an empty text',
      { 'en/messages.yaml': messages('""') },
      [
        'en/messages.yaml:3:11 batch.use-by: the text is empty. Found nothing. Write: the words; without them people would see nothing',
      ],
    ],
    [
      'a number for a text',
      { 'en/messages.yaml': messages('112') },
      ['en/messages.yaml:3:11 batch.use-by: text is expected here. Found "112". Write: the words, in quotes'],
    ],
    [
      'an id both flat and nested',
      { 'en/messages.yaml': `${messages('"{rig} {time}"')}batch.use-by: "{rig} {time}"\n` },
      [
        'en/messages.yaml:5:15 batch.use-by: this text is written twice. Found "{rig} {time}". Write: it once',
      ],
    ],
    [
      'no messages at all',
      { 'en/messages.yaml': null },
      [
        'en/messages.yaml:1:1: the file is missing. Found nothing. Write: create this file',
        'en/messages.yaml:1:1 app.name: this text is missing. Found nothing. Write: app.name and its words',
        'en/messages.yaml:1:1 batch.use-by: this text is missing. Found nothing. Write: batch.use-by and its words',
        'en/messages.yaml:1:1 batch.litres: this text is missing. Found nothing. Write: batch.litres and its words',
      ],
    ],
    [
      'a language without its name',
      { 'en/language.yaml': 'direction: left\nlocale: pl-PL\ncountry: en\n' },
      [
        'en/language.yaml:1:1 name: the name of the language is missing. Found nothing. Write: name: English',
        'en/language.yaml:1:12 direction: the direction of writing is missing. Found "left". Write: direction: ltr, or rtl from right to left',
        'en/language.yaml:2:9 locale: how numbers and dates are written is missing, or not one of this language. Found "pl-PL". Write: locale: en with a country, such as en-GB',
        'en/language.yaml:1:1 drafted: it does not say who wrote the words. Found nothing. Write: drafted: machine, or by-hand',
        'en/language.yaml:3:10 country: there is no such field here. Found "en". Write: nothing; the fields are name, direction, locale and drafted',
        'en/messages.yaml:1:1: the first line does not say that a machine drafted this file. Found "app.name: Potbell". Write: # Machine-drafted. To be checked by a competent speaker before use on site.',
        'en/cautions/heat.md:1:1: the first line does not say that a machine drafted this file. Found "# Heat". Write: <!-- Machine-drafted. To be checked by a competent speaker before use on site. -->',
      ],
    ],
    [
      'a file that is no caution',
      { 'en/cautions/heat.txt': caution },
      [
        'en/cautions/heat.txt:1:1: this is not the words of a caution. Found nothing. Write: a name that ends in .md, or move it out',
      ],
    ],
    [
      'a caution with a fault',
      { 'en/cautions/heat.md': caution.replace('{airC}', '{air C}') },
      [
        'en/cautions/heat.md:3:1 Why today: "C" is no unit for a placeholder. Found "{air C} °C.". Write: {air}, or one of °C, Δ°C, L, bar, µm, mm, m, m², m³, m/s, L/min, m³/min, m²/L, kg, kg/L after it',
      ],
    ],
  ])('%s', (_name, changes, says) => {
    expect(load(changes).said).toEqual(says);
  });

  test('a caution that a rule has and nobody wrote, and one that no rule has', () => {
    expect(load({}, { cautions: ['heat', 'cold'] }).said).toEqual([
      'en/cautions/cold.md:1:1: this caution has no words. Found nothing. Write: this file, with # title, ## Why today and ## Do',
    ]);
    expect(load({ 'en/cautions/heet.md': caution }, { cautions: ['heat'] }).said).toEqual([
      'en/cautions/heet.md:1:1: no rule has a caution with this name. Found nothing. Write: the name heat.md, if that was meant; or move the file out',
    ]);
  });
});

describe('a text that cannot be filled', () => {
  test('throws while nobody listens', () => {
    expect(() => load().say('en', 'batch.use-by', { rig: 'Rig 1' })).toThrow('time');
    expect(() => load().say('en', 'no.such')).toThrow('There are no words for "no.such"');
  });

  test('is told and still shown, a caution as well, when somebody listens', () => {
    const faults: string[] = [];
    const texts = load({}, { onFault: (what) => faults.push(what) });
    expect(texts.say('en', 'batch.use-by', { rig: 'Rig 1' })).toBe('{rig}: use by {time}');
    expect(texts.textsFor('en').caution('heat').reason({})).toBe('{airC} °C.');
    expect(texts.say('en', 'no.such', { bar: 225 })).toBe('no.such, bar 225');
    expect(faults).toHaveLength(3);
    expect(faults[0]).toContain('messages.yaml: batch.use-by: ');
    expect(faults[1]).toContain('heat.md: Why today: ');
  });
});
