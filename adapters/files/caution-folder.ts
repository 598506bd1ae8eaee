import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Units } from '../../src/units/quantity.ts';
import { type CautionFile, parseCaution } from './caution-file.ts';
import { type Guard, unguarded, type Writing } from './compile-text.ts';
import { nearest } from './nearest.ts';
import { wholeFile } from './pack-folder.ts';
import type { PackProblem } from './problem.ts';
import { readText } from './read-text.ts';

export interface CautionFolder {
  readonly cautions: ReadonlyMap<string, CautionFile>;
  readonly problems: readonly PackProblem[];
  readonly warnings: readonly PackProblem[];
}

export interface CautionFolderOptions {
  /** Ids that must have words in English; null when nobody says. */
  readonly expected?: readonly string[] | null;
  /** The English cautions, when this is a translation. */
  readonly base?: ReadonlyMap<string, CautionFile> | null;
  readonly guard?: Guard;
  /** How figures are shown; metric unless given. */
  readonly units?: Units;
  /** Cautions of a site: the language that all of them must have, which the others are held against. */
  readonly siteLanguage?: string;
}

/** `cautions/<id>.md` of one language. A translation must have the steps, questions and placeholders of the English. */
export function readCautions(
  folder: string,
  writing: Writing | string,
  options: CautionFolderOptions = {},
): CautionFolder {
  const { expected = null, base = null, guard = unguarded, units = 'metric', siteLanguage = null } = options;
  const called = siteLanguage === null ? 'the English' : `the file in ${siteLanguage}/`;
  const cautions = new Map<string, CautionFile>();
  const problems: PackProblem[] = [];
  const known = expected ?? (base ? [...base.keys()] : null);
  const names = existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => !name.startsWith('.'))
        .sort()
    : [];
  for (const name of names) {
    const file = join(folder, name);
    const id = name.replace(/\.md$/, '');
    if (!name.endsWith('.md')) {
      problems.push(
        wholeFile(file, 'this is not the words of a caution', 'a name that ends in .md, or move it out'),
      );
      continue;
    }
    if (known && !known.includes(id)) {
      const meant = nearest(id, known);
      const name = meant === null ? '' : `the name ${meant}.md, if that was meant; `;
      const [message, write] =
        siteLanguage === null
          ? ['no rule has a caution with this name', `${name}or move the file out`]
          : [
              'no caution under own in cautions.yaml has this name',
              `${name}an entry for it there; or move the file out`,
            ];
      problems.push(wholeFile(file, message, write));
      continue;
    }
    const read = readText(file);
    if (!read.ok) {
      problems.push(read.problem);
      continue;
    }
    const parsed = parseCaution(file, read.text, writing, guard, units, siteLanguage !== null);
    problems.push(...parsed.problems);
    const english = base?.get(id);
    const differs = parsed.caution && english ? differences(file, parsed.caution, english, called) : [];
    problems.push(...differs);
    if (parsed.caution && differs.length === 0) cautions.set(id, parsed.caution);
  }
  const lacking = (known ?? [])
    .filter((id) => !names.includes(`${id}.md`))
    .map((id) => {
      const file = join(folder, `${id}.md`);
      const message = base
        ? `this caution is not translated, ${siteLanguage === null ? 'the English one' : called} is shown`
        : 'this caution has no words';
      return wholeFile(
        file,
        message,
        `this file, with # title, ## Why today${siteLanguage === null ? ' and ## Do' : ', ## Do and ## Ask'}`,
      );
    });
  return base
    ? { cautions, problems, warnings: lacking }
    : { cautions, problems: [...problems, ...lacking], warnings: [] };
}

/** What a translation lacks or has too much of; a lost step is a lost safety word. */
function differences(
  file: string,
  own: CautionFile,
  english: CautionFile,
  called: string,
): readonly PackProblem[] {
  const out: PackProblem[] = [];
  const differ = (field: string, found: string, message: string, write: string) =>
    out.push({ ...wholeFile(file, message, write), field, found });
  if (own.steps !== english.steps)
    differ(
      'Do',
      `${own.steps} steps`,
      `${called} has ${english.steps} steps`,
      `one step for each step of ${called}`,
    );
  for (const [field, part] of [
    ['Why today', 'reason'],
    ['Each', 'each'],
    ['Do', 'steps'],
  ] as const) {
    const mine = listed(own.placeholders[part]);
    const theirs = listed(english.placeholders[part]);
    if (mine !== theirs)
      differ(field, mine, `${called} has ${theirs} here`, `the same placeholders as ${called}: ${theirs}`);
  }
  const questions = (caution: CautionFile) =>
    caution.questions.map((one) => `${one.id} with ${one.choices} choices`).join(', ') || 'no questions';
  if (questions(own) !== questions(english))
    differ(
      'Ask',
      questions(own),
      `${called} has ${questions(english)}`,
      'the same questions in the same order',
    );
  return out;
}

function listed(names: readonly string[] | null): string {
  if (names === null) return 'no such part';
  return names.length === 0 ? 'no placeholders' : names.map((name) => `{${name}}`).join(', ');
}
