import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Language } from './language-file.ts';
import { wholeFile } from './pack-folder.ts';
import type { PackProblem } from './problem.ts';

/** What every file of a machine's draft says of itself in its first line, as a comment. English, for whoever opens it. */
export const draftMark = 'Machine-drafted. To be checked by a competent speaker before use on site.';

/** Files of a language that have words in them, by path inside its folder, `messages.yaml` first. */
export function wordFiles(folder: string): readonly string[] {
  const cautions = join(folder, 'cautions');
  const names = existsSync(cautions) ? readdirSync(cautions).filter((name) => name.endsWith('.md')) : [];
  const messages = existsSync(join(folder, 'messages.yaml')) ? ['messages.yaml'] : [];
  return [...messages, ...names.sort().map((name) => `cautions/${name}`)];
}

/** A draft that does not say so in each file, or a file that says so in a language that is none. */
export function draftMarkProblems(folder: string, { drafted }: Language): readonly PackProblem[] {
  return wordFiles(folder).flatMap((name): readonly PackProblem[] => {
    const file = join(folder, name);
    const comment = name.endsWith('.md') ? `<!-- ${draftMark} -->` : `# ${draftMark}`;
    const [first = ''] = readFileSync(file, 'utf8')
      .replace(/^\uFEFF/, '')
      .split('\n', 1);
    const marked = first.trim() === comment;
    if (marked === (drafted === 'machine')) return [];
    const [message, write] =
      drafted === 'machine'
        ? ['the first line does not say that a machine drafted this file', comment]
        : [
            'the file says that a machine drafted it, language.yaml says by-hand',
            'drafted: machine there; or take the mark out once somebody has written the file anew',
          ];
    return [{ ...wholeFile(file, message, write), found: first.trim().slice(0, 40) }];
  });
}
