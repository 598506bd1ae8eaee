import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Site } from '../../src/model/site.ts';
import { type CautionsFile, SITE_CAUTION, type SiteCautions } from '../../src/model/site-cautions.ts';
import type { CautionFile } from './caution-file.ts';
import { readCautions } from './caution-folder.ts';
import { cautionChecks, cautionWarnings } from './own-caution-checks.ts';
import type { PackFolder } from './pack-folder.ts';
import type { PackProblem } from './problem.ts';
import { type ReadEntry, readOne } from './read-entries.ts';
import { idOf, type Refs } from './references.ts';
import { listAt } from './value-at.ts';

/** The words of a site's own cautions: language → caution id → words. */
export type OwnWords = ReadonlyMap<string, ReadonlyMap<string, CautionFile>>;

export interface ReadSiteCautions {
  /** Null when the site adds nothing, and when something is wrong. */
  readonly cautions: SiteCautions | null;
  readonly words: OwnWords;
  readonly problems: readonly PackProblem[];
  readonly warnings: readonly PackProblem[];
}

/**
 * `cautions.yaml` and `cautions/<language>/<id>.md`, both of which may be missing. `site`: null when site.yaml has a
 * problem, then the words are not looked at. `languages`: what people of the pack read.
 */
export function readSiteCautions(
  dir: string,
  folder: PackFolder,
  refs: Refs,
  site: Pick<Site, 'language' | 'units'> | null,
  languages: readonly string[],
): ReadSiteCautions {
  const file = join(dir, 'cautions.yaml');
  const read: ReadEntry<'cautions'> = existsSync(file)
    ? readOne('cautions', file, folder.close, {})
    : { entry: null, problems: [] };
  const { entry } = read;
  // A file that cannot be read says nothing about which words are too many or too few.
  const ids = entry || read.problems.length === 0 ? listAt(entry?.raw, 'own').map(idOf) : null;
  const words = site && ids ? readWords(dir, folder, site, ids, languages) : null;
  const problems = [
    ...read.problems,
    ...(entry ? cautionChecks(entry, refs) : []),
    ...(words?.problems ?? []),
  ];
  const warnings = [...(entry ? cautionWarnings(entry, refs) : []), ...(words?.warnings ?? [])];
  const whole = entry?.value && words && problems.length === 0;
  return {
    cautions: whole ? joined(entry.value, site?.language ?? '', words.words) : null,
    words: words?.words ?? new Map(),
    problems,
    warnings,
  };
}

function readWords(
  dir: string,
  folder: PackFolder,
  { language, units }: Pick<Site, 'language' | 'units'>,
  ids: readonly string[],
  languages: readonly string[],
) {
  const words = new Map<string, ReadonlyMap<string, CautionFile>>();
  const problems: PackProblem[] = [];
  const warnings: PackProblem[] = [];
  const expected = ids.filter((id) => id.startsWith(SITE_CAUTION));
  // The site's language first: the others are held against it.
  const read = ids.length > 0 ? languages : [];
  for (const code of new Set([language, ...folder.cautionLanguages, ...read])) {
    const base = words.get(language) ?? null;
    const found = readCautions(join(dir, 'cautions', code), code, {
      expected,
      base,
      units,
      siteLanguage: language,
    });
    words.set(code, found.cautions);
    problems.push(...found.problems);
    warnings.push(...found.warnings);
  }
  return { words, problems, warnings };
}

function joined({ tighten, own }: CautionsFile, language: string, words: OwnWords): SiteCautions {
  return {
    tighten,
    own: own.map((caution) => {
      const { questions = [] } = words.get(language)?.get(caution.id) ?? {};
      return { ...caution, questions: [...questions], edition: editionOf(caution.id, words) };
    }),
  };
}

/** Changes with the words in any language, not with the comments or line ends of their files. */
function editionOf(id: string, words: OwnWords): string {
  const all = [...words]
    .sort(([x], [y]) => (x < y ? -1 : 1))
    .map(([language, files]) => {
      const file = files.get(id);
      if (!file) return [language];
      const { title, more, reason, steps, question } = file.words;
      return [language, title, reason({}), steps({}), more, file.questions.map((one) => question(one.id))];
    });
  // A letter in front: it is no figure, so the shift after a rewording is told that the caution is new.
  return `w${createHash('sha256').update(JSON.stringify(all)).digest('hex').slice(0, 8)}`;
}
