import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { loadDayFile } from '../files/day-file.ts';
import { demoSiteFolder } from '../files/demo-site.ts';
import { loadTexts } from '../files/load-texts.ts';
import { formatProblem } from '../files/problem.ts';
import type { OwnWords } from '../files/site-cautions.ts';
import { loadSitePack } from '../files/site-pack.ts';
import type { Log } from '../host/log.ts';

/** Something the person at the terminal has to mend; printed without a stack, exit code 2. */
export class UsageProblem extends Error {
  override readonly name = 'UsageProblem';
}

export interface LoadedSite {
  readonly dir: string;
  readonly pack: SitePack;
  /** The words of its own cautions. */
  readonly words: OwnWords;
  readonly pins: Readonly<Record<string, string>>;
  readonly demoPins: Readonly<Record<string, string>>;
  readonly warnings: readonly string[];
}

export function loadSite(dir: string = demoSiteFolder()): LoadedSite {
  const loaded = loadSitePack(dir);
  if (!loaded.ok)
    throw new UsageProblem(
      `The site pack in ${dir} cannot be used:\n${loaded.problems.map(formatProblem).join('\n')}`,
    );
  const { pack, words, pins, demoPins, warnings } = loaded;
  return { dir, pack, words, pins, demoPins, warnings: warnings.map(formatProblem) };
}

/**
 * The words in every language, with figures in the site's units. At start a fault in them is loud; later, while people wait for a bell, a text that cannot
 * be filled is logged and still said with its places unfilled.
 */
export function loadWords(
  { pack: { site }, words }: Pick<LoadedSite, 'pack' | 'words'>,
  running?: Log,
): TextsFor {
  const { textsFor, problems } = loadTexts(undefined, {
    cautions: cautionRules.map(({ id }) => id),
    units: site.units,
    siteLanguage: site.language,
    own: words,
    ...(running && { onFault: (what: string) => running.error({ what }, 'a text could not be filled') }),
  });
  if (problems.length > 0)
    throw new UsageProblem(`The texts are not in order:\n${problems.map(formatProblem).join('\n')}`);
  return textsFor;
}

export function loadDay(file: string, pack: SitePack): DayEntry {
  const loaded = loadDayFile(file, pack);
  if (!loaded.ok)
    throw new UsageProblem(
      `The day in ${file} cannot be used:\n${loaded.problems.map(formatProblem).join('\n')}`,
    );
  return loaded.entry;
}

/** The pack's example day, for the first day form there is; null when the pack has none. */
export function exampleDay({ dir, pack }: LoadedSite): DayEntry | null {
  const file = join(dir, 'days', 'day-1.yaml');
  return existsSync(file) ? loadDay(file, pack) : null;
}
