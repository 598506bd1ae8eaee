import { isAbsolute, join, relative, resolve } from 'node:path';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { sha256Of } from '../files/checked-file.ts';
import { wordFiles } from '../files/draft-mark.ts';
import { type LanguageReport, reportLanguages } from '../files/language-report.ts';
import type { CheckedFile } from '../files/language-state.ts';
import { templatesFolder } from '../files/package-root.ts';
import { formatProblem } from '../files/problem.ts';
import { UsageProblem } from './site.ts';

/** What there is of each language, and who has read it; or the line that says that somebody has. */
export function languages({ json, sha }: { readonly json?: true; readonly sha?: string }): void {
  const dir = templatesFolder();
  process.stdout.write(`${sha === undefined ? languagesText(dir, json === true) : checkEntry(dir, sha)}\n`);
}

export function languagesText(dir: string, json: boolean): string {
  const options = { cautions: cautionRules.map(({ id }) => id) };
  const { languages: found, problems } = reportLanguages(dir, options);
  if (json) return JSON.stringify({ languages: found, problems: problems.map(formatProblem) }, null, 2);
  const faults = problems.length === 0 ? [] : ['', 'Not in order:', ...problems.map(formatProblem)];
  return [found.map(languageText).join('\n\n'), ...faults].join('\n');
}

function languageText(language: LanguageReport): string {
  const { code, name, direction, locale, drafted, texts, cautions } = language;
  const written = drafted === 'machine' ? 'drafted by a machine' : 'written by hand';
  const whole = language.complete ? 'complete' : 'NOT complete, the rest is shown in English';
  return [
    `${code}  ${name}, ${direction}, ${locale}, ${written}`,
    `    ${whole}: texts ${texts.have} of ${texts.of}, cautions ${cautions.have} of ${cautions.of}`,
    ...part('checked', language.checked.map(checkedLine)),
    ...part('changed since it was checked', language.changed.map(checkedLine)),
    ...unchecked(language),
  ].join('\n');
}

function part(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0
    ? []
    : [`    ${title} (${lines.length}):`, ...lines.map((line) => `      ${line}`)];
}

/** Nobody needs a list to know that it is all of them. */
function unchecked({ checked, changed, unchecked: files }: LanguageReport): readonly string[] {
  if (files.length > 0 && checked.length + changed.length === 0)
    return [`    nobody has checked any of its ${files.length} files`];
  return part('checked by nobody', files);
}

function checkedLine({ file, by, on, note }: CheckedFile): string {
  return `${file}: ${by}, ${on}${note === null ? '' : ` (${note})`}`;
}

/** The entry for `checked.yaml` of one file as it is now; `path` is "es/cautions/injection.md" or a path to it. */
export function checkEntry(dir: string, path: string): string {
  const file = [join(dir, path), resolve(path)]
    .map((one) => relative(dir, one))
    .find((one) => known(dir, one));
  if (file === undefined)
    throw new UsageProblem(
      `There is no file of words "${path}". Write one such as es/messages.yaml or es/cautions/injection.md.`,
    );
  const [code = '', ...inside] = file.split(/[\\/]/);
  return [
    `# for ${code}/checked.yaml; whoever read the whole file writes name and date`,
    `- file: ${inside.join('/')}`,
    // In quotes: digits alone would be read as a number.
    `  sha256: "${sha256Of(join(dir, file))}"`,
    '  by: ',
    '  on: ""',
  ].join('\n');
}

function known(dir: string, path: string): boolean {
  const [code = '', ...inside] = path.split(/[\\/]/);
  if (isAbsolute(path) || !/^[a-z]{2}$/.test(code)) return false;
  return wordFiles(join(dir, code)).includes(inside.join('/'));
}
