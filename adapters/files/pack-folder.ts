import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { nearest } from './nearest.ts';
import type { PackProblem } from './problem.ts';

export interface PackFolder {
  /** coatings.yaml if there is one, then the files in coatings/ by name. */
  readonly coatingFiles: readonly string[];
  readonly dayFiles: readonly string[];
  /** Folders in cautions/ that are named like a language, by name: the words of the site's own cautions. */
  readonly cautionLanguages: readonly string[];
  readonly problems: readonly PackProblem[];
  /** Files that are not read. */
  readonly warnings: readonly PackProblem[];
  /** A file whose name is close to one that is missing. */
  close(name: string): string | null;
}

const known = [
  'site.yaml',
  'people.yaml',
  'coatings.yaml',
  'rigs.yaml',
  'policy.yaml',
  'cautions.yaml',
  'pins.yaml',
  'demo-pins.yaml',
];
const folders = ['coatings', 'days', 'cautions'];

/** What a site pack folder has; null with a problem when it cannot be looked into. Names that begin with a dot are let be. */
export function packFolder(dir: string): PackFolder | PackProblem {
  let names: readonly string[];
  try {
    names = visible(dir);
  } catch (error) {
    return wholeFile(dir, ...folderWords(error));
  }
  const problems: PackProblem[] = [];
  const warnings: PackProblem[] = [];
  const strangers = names.filter(
    (name) => !known.includes(name) && !folders.includes(name) && name !== 'README.md',
  );
  for (const name of strangers)
    warnings.push(notRead(join(dir, name), nearest(name, [...known, ...folders])));
  const inside = (folder: string, ends: readonly string[]): readonly string[] => {
    const path = join(dir, folder);
    if (!existsSync(path)) return [];
    const files = inFolder(path, problems);
    for (const name of files.filter((one) => !ends.some((end) => one.endsWith(end)))) {
      const yaml = /\.ya?ml$/i.test(name) ? `${name.replace(/\.ya?ml$/i, '')}.yaml` : null;
      warnings.push(notRead(join(path, name), yaml));
    }
    return files.filter((one) => ends.some((end) => one.endsWith(end))).map((name) => join(path, name));
  };
  const isLanguage = (name: string) =>
    /^[a-z]{2}$/.test(name) && statSync(join(dir, 'cautions', name)).isDirectory();
  const words = existsSync(join(dir, 'cautions')) ? inFolder(join(dir, 'cautions'), problems) : [];
  for (const name of words.filter((one) => !isLanguage(one)))
    warnings.push(notRead(join(dir, 'cautions', name), /\.md$/.test(name) ? `cautions/en/${name}` : null));
  const single = join(dir, 'coatings.yaml');
  return {
    coatingFiles: [...(existsSync(single) ? [single] : []), ...inside('coatings', ['.yaml'])],
    dayFiles: inside('days', ['.yaml', '.json']),
    cautionLanguages: words.filter(isLanguage),
    problems,
    warnings,
    close: (name) => strangers.find((one) => nearest(one, [name]) !== null) ?? null,
  };
}

function inFolder(path: string, problems: PackProblem[]): readonly string[] {
  if (statSync(path).isDirectory()) return visible(path);
  const write = `a folder ${basename(path)} with one file for each entry`;
  problems.push(wholeFile(path, 'this is a file, not a folder', write));
  return [];
}

export function wholeFile(file: string, message: string, write: string): PackProblem {
  return { file, line: 1, column: 1, field: '', found: '', message, write };
}

function notRead(file: string, meant: string | null): PackProblem {
  return wholeFile(
    file,
    'Potbell does not read this file',
    meant === null
      ? 'nothing; move it out of the site pack'
      : `the name ${meant}, if that was meant; or move it out`,
  );
}

function visible(dir: string): readonly string[] {
  return readdirSync(dir)
    .filter((name) => !name.startsWith('.'))
    .sort();
}

function folderWords(error: unknown): [message: string, write: string] {
  const code = error instanceof Error && 'code' in error ? error.code : '';
  if (code === 'ENOENT')
    return ['there is no such folder', 'the path of a site pack, or make one with "potbell init"'];
  if (code === 'ENOTDIR')
    return ['this is a file, not a folder', 'the path of the folder that has site.yaml in it'];
  return [
    `the folder cannot be read (${String(error)})`,
    'check the path and the rights to it, then try again',
  ];
}
