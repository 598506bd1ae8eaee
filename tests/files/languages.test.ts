import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkEntry, languagesText } from '../../adapters/cli/languages.ts';
import { sha256Of } from '../../adapters/files/checked-file.ts';
import { reportLanguages } from '../../adapters/files/language-report.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { tempDir } from './temp-dir.ts';

const mark = 'Machine-drafted. To be checked by a competent speaker before use on site.';
const declared = { 'a.number': ['n'], 'a.range': ['low'], 'a.fixed': [], 'a.count': ['count'] } as const;

/** Words of a language that nobody speaks. */
const words = `a:
  number: "{n} %"
  range: "vu {low °C}"
  fixed: "zo {=1.5 L|0.4 gal}"
  count: "{count, plural, one {# mu} other {# muz}}"
`;
const caution = '# Blaze\n## Why today\nZu {airC °C}.\n## Do\n- Vu.\n';

const draft = { direction: 'ltr', locale: 'pl-PL', drafted: 'machine' };
const yaml = (fields: Readonly<Record<string, string>>) =>
  Object.entries({ name: 'Test', ...fields })
    .map(([key, value]) => `${key}: ${value}\n`)
    .join('');

function folder(files: Readonly<Record<string, string>>): string {
  const dir = tempDir();
  const english = {
    'en/language.yaml': yaml({ direction: 'ltr', locale: 'en-GB', drafted: 'by-hand' }),
    'en/messages.yaml': words,
    'en/cautions/heat.md': caution,
  };
  for (const [name, text] of Object.entries({ ...english, ...files })) {
    mkdirSync(dirname(join(dir, name)), { recursive: true });
    writeFileSync(join(dir, name), text);
  }
  return dir;
}

const drafted = {
  'pl/language.yaml': yaml(draft),
  'pl/messages.yaml': `# ${mark}\n${words}`,
  'pl/cautions/heat.md': `<!-- ${mark} -->\n${caution}`,
};

const problemsOf = (dir: string) =>
  loadTexts(dir, { declared }).problems.map((one) => formatProblem(one).replaceAll(`${dir}/`, ''));
const sayIn = (dir: string, language: string) =>
  loadTexts(dir, { declared }).textsFor(language).say as (id: string, params?: object) => string;

describe('a machine draft', () => {
  test('says so in the first line of every file, or the program does not start', () => {
    expect(problemsOf(folder(drafted))).toEqual([]);
    expect(
      problemsOf(folder({ ...drafted, 'pl/messages.yaml': words, 'pl/cautions/heat.md': caution })),
    ).toEqual([
      `pl/messages.yaml:1:1: the first line does not say that a machine drafted this file. Found "a:". Write: # ${mark}`,
      `pl/cautions/heat.md:1:1: the first line does not say that a machine drafted this file. Found "# Blaze". Write: <!-- ${mark} -->`,
    ]);
  });

  test('cannot pass for written by hand by one word in language.yaml', () => {
    const by = { ...drafted, 'pl/language.yaml': yaml({ ...draft, drafted: 'by-hand' }) };
    expect(problemsOf(folder(by))).toHaveLength(2);
  });

  test('is told to its readers until each file is checked as it stands', () => {
    const dir = folder(drafted);
    const checked = () => loadTexts(dir, { declared }).textsFor('pl').checked;
    expect(checked()).toBe('not-yet');
    const entry = (file: string) =>
      `- file: ${file}\n  sha256: ${sha256Of(join(dir, 'pl', file))}\n  by: Ola\n  on: "2026-05-01"\n`;
    writeFileSync(join(dir, 'pl/checked.yaml'), entry('messages.yaml'));
    expect(checked()).toBe('not-yet');
    writeFileSync(join(dir, 'pl/checked.yaml'), entry('messages.yaml') + entry('cautions/heat.md'));
    expect(checked()).toBe('all');
    writeFileSync(join(dir, 'pl/cautions/heat.md'), `<!-- ${mark} -->\n${caution.replace('Vu.', 'Vo.')}`);
    expect(checked()).toBe('not-yet');
    expect(loadTexts(dir, { declared }).textsFor('en').checked).toBe('all');
  });

  test('a check of nothing, or of a file that is not there, stops the start', () => {
    const sha = 'a'.repeat(64);
    const with_ = (text: string) => problemsOf(folder({ ...drafted, 'pl/checked.yaml': text }));
    expect(with_(`- file: cautions/heet.md\n  sha256: ${sha}\n  by: Ola\n  on: "2026-05-01"\n`)).toEqual([
      'pl/checked.yaml:1:9 #1.file: there is no such file in this language. Found "cautions/heet.md". Write: messages.yaml or cautions/<name>.md',
    ]);
    expect(with_(`- file: messages.yaml\n  sha256: abc\n  by: ""\n  on: "2026-02-30"\n`)).toHaveLength(3);
    expect(with_('file: messages.yaml\n')).toHaveLength(1);
    expect(with_('# nobody yet\n')).toEqual([]);
  });
});

describe('numbers are written as the language writes them', () => {
  test('with a decimal comma, in units and without', () => {
    const say = sayIn(folder(drafted), 'pl');
    expect(say('a.number', { n: 12.5 })).toBe('12,5 %');
    expect(say('a.range', { low: -2.5 })).toBe('vu -2,5 °C');
    expect(say('a.fixed')).toBe('zo 1,5 L');
    expect(say('a.count', { count: 1 })).toBe('1 mu');
    expect(sayIn(folder(drafted), 'en')('a.number', { n: 12.5 })).toBe('12.5 %');
  });

  test('words stay as they are, also where a number could stand', () => {
    expect(sayIn(folder(drafted), 'pl')('a.range', { low: '-' })).toBe('vu -');
  });

  test('from right to left each filled piece stands apart', () => {
    const dir = folder({
      'he/language.yaml': yaml({ direction: 'rtl', locale: 'he-IL', drafted: 'by-hand' }),
      'he/messages.yaml': words,
      'he/cautions/heat.md': caution,
    });
    const say = sayIn(dir, 'he');
    expect(say('a.range', { low: 5 })).toBe('vu \u20685 °C\u2069');
    expect(say('a.number', { n: 'H225' })).toBe('\u2068H225\u2069 %');
    expect(say('a.number', { n: '' })).toBe(' %');
    expect(loadTexts(dir, { declared }).textsFor('he').caution('heat').reason({ airC: 5 })).toBe(
      'Zu \u20685 °C\u2069.',
    );
  });
});

describe('potbell languages', () => {
  const half = { ...drafted, 'pl/messages.yaml': `# ${mark}\na:\n  number: "{n} %"\n` };

  test('counts what there is and names what nobody has checked', () => {
    const dir = folder(half);
    const [english, polish] = reportLanguages(dir, { declared }).languages;
    expect(english).toMatchObject({ complete: true, unchecked: ['messages.yaml', 'cautions/heat.md'] });
    expect(polish).toMatchObject({
      complete: false,
      texts: { have: 1, of: 4 },
      cautions: { have: 1, of: 1 },
      checked: [],
      unchecked: ['messages.yaml', 'cautions/heat.md'],
    });
  });

  test('tells what was checked by whom, and what has changed since', () => {
    const dir = folder(half);
    const entry = checkEntry(dir, 'pl/cautions/heat.md')
      .replace('by: ', 'by: Ola')
      .replace('on: ""', 'on: "2026-05-01"');
    const old = `- file: messages.yaml\n  sha256: "${'0'.repeat(64)}"\n  by: Ewa\n  on: "2026-04-01"\n  note: first half\n`;
    writeFileSync(join(dir, 'pl/checked.yaml'), `${entry}\n${old}`);
    expect(problemsOf(dir)).toEqual([]);
    const text = languagesText(dir, false);
    expect(text).toContain('pl  Test, ltr, pl-PL, drafted by a machine');
    expect(text).toContain('checked (1):\n      cautions/heat.md: Ola, 2026-05-01');
    expect(text).toContain(
      'changed since it was checked (1):\n      messages.yaml: Ewa, 2026-04-01 (first half)',
    );
    const { languages } = JSON.parse(languagesText(dir, true)) as {
      languages: { code: string; changed: object[] }[];
    };
    expect(languages.find(({ code }) => code === 'pl')?.changed).toEqual([
      { file: 'messages.yaml', by: 'Ewa', on: '2026-04-01', note: 'first half' },
    ]);
  });

  test.each(['pl/cautions/cold.md', 'pl/language.yaml', '../etc/passwd', 'xx/messages.yaml'])(
    '--sha %s is refused',
    (path) => {
      expect(() => checkEntry(folder(drafted), path)).toThrow('There is no file of words');
    },
  );
});
