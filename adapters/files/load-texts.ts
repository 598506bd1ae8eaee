import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Params } from '../../src/briefing/caution.ts';
import { SITE_CAUTION } from '../../src/model/site-cautions.ts';
import { textIds } from '../../src/texts/text-ids.ts';
import type { CautionWords, Texts, TextsFor } from '../../src/texts/texts.ts';
import type { Units } from '../../src/units/quantity.ts';
import type { CautionFile } from './caution-file.ts';
import { readCautions } from './caution-folder.ts';
import { readChecked } from './checked-file.ts';
import { type CompiledText, reporting, unguarded } from './compile-text.ts';
import { draftMarkProblems } from './draft-mark.ts';
import { goneQuestion, goneWords } from './gone-words.ts';
import { type Language, readLanguage } from './language-file.ts';
import { isChecked, languageChecks } from './language-state.ts';
import { type DeclaredTexts, readMessages } from './messages-file.ts';
import { templatesFolder } from './package-root.ts';
import type { PackProblem } from './problem.ts';
import type { OwnWords } from './site-cautions.ts';

/** Every id must have words here; the other languages fall back to it, text by text. */
const BASE = 'en';

export interface TextsOptions {
  /** How figures are shown; metric unless given. */
  readonly units?: Units;
  /** Tried before English where a language has no words. */
  readonly siteLanguage?: string;
  /** Text ids and their placeholders; those of the program unless a test gives others. */
  readonly declared?: DeclaredTexts;
  /** Ids of the cautions that must have words; without it, those that have a file in English. */
  readonly cautions?: readonly string[];
  /** The words of the site's own cautions. */
  readonly own?: OwnWords;
  /**
   * Told when a text cannot be filled; then the text is shown with its placeholders, so that a warning still reaches
   * people. Without it such a text throws.
   */
  readonly onFault?: (what: string) => void;
}

export interface LoadedTexts {
  readonly textsFor: TextsFor;
  readonly languages: readonly Language[];
  /** How many texts and cautions a language has words for, of how many there are. */
  counts(code: string): { readonly texts: Counted; readonly cautions: Counted };
  /** The English cautions by id, for checks of placeholders and questions. */
  readonly cautions: ReadonlyMap<string, CautionFile>;
  /** Start-up must stop on any of these. */
  readonly problems: readonly PackProblem[];
  /** Texts of another language that fall back to English. */
  readonly warnings: readonly PackProblem[];
}

export interface Counted {
  readonly have: number;
  readonly of: number;
}

interface Loaded {
  readonly language: Language;
  readonly texts: ReadonlyMap<string, CompiledText>;
  readonly cautions: ReadonlyMap<string, CautionFile>;
  readonly checked: Texts['checked'];
}

/** All languages in `dir`: each is a folder with two small letters as its name. */
export function loadTexts(dir: string = templatesFolder(), options: TextsOptions = {}): LoadedTexts {
  const declared: DeclaredTexts = options.declared ?? textIds;
  const guard = options.onFault ? reporting(options.onFault) : unguarded;
  const problems: PackProblem[] = [];
  const warnings: PackProblem[] = [];
  const loaded = new Map<string, Loaded>();
  // English first: the others are held against it.
  const codes = [BASE, ...languageFolders(dir).filter((code) => code !== BASE)];
  for (const code of codes) {
    const folder = join(dir, code);
    const base = loaded.get(BASE);
    const { language, problems: wrong } = readLanguage(join(folder, 'language.yaml'), code);
    const file = join(folder, 'messages.yaml');
    const messages = readMessages(file, language, declared, guard, options.units);
    const cautions = readCautions(join(folder, 'cautions'), language, {
      expected: options.cautions ?? null,
      base: base?.cautions ?? null,
      guard,
      units: options.units ?? 'metric',
    });
    const { checks, problems: unclear } = readChecked(folder);
    const unmarked = draftMarkProblems(folder, language);
    problems.push(...wrong, ...messages.problems, ...cautions.problems, ...unmarked, ...unclear);
    (base ? warnings : problems).push(...messages.missing.map((id) => noWords(file, id, base !== undefined)));
    warnings.push(...cautions.warnings);
    const checked = isChecked(language, languageChecks(folder, checks)) ? 'all' : 'not-yet';
    loaded.set(code, { language, texts: messages.texts, cautions: cautions.cautions, checked });
  }
  const made = new Map<string, Texts>();
  // Read now and not when a data file is asked for: words that are changed on the disk meanwhile have not been checked.
  const metric = options.units === 'us' ? loadTexts(dir, { ...options, units: 'metric' }).textsFor : null;
  const textsFor: TextsFor = (language, units) => {
    if (units === 'metric' && metric) return metric(language);
    const order = [language, language.split('-')[0] ?? language, options.siteLanguage ?? BASE, BASE];
    const chain = [...new Set(order)].flatMap((code) => loaded.get(code) ?? []);
    const code = chain[0]?.language.code ?? BASE;
    const own = [...new Set(order)].flatMap((one) => (options.own?.has(one) ? [one] : []));
    // Somebody whose language Potbell does not have may still have the site's own cautions in it.
    const key = [code, ...own].join(' ');
    const words = own.flatMap((one) => options.own?.get(one) ?? []);
    const texts = made.get(key) ?? textsOf(chain, words, dir, options.onFault);
    made.set(key, texts);
    return texts;
  };
  const languages = [...loaded.values()].map((one) => one.language);
  const base = loaded.get(BASE)?.cautions ?? new Map<string, CautionFile>();
  const counts: LoadedTexts['counts'] = (code) => {
    const one = loaded.get(code);
    const ids = options.cautions ?? [...base.keys()];
    return {
      texts: { have: one?.texts.size ?? 0, of: Object.keys(declared).length },
      cautions: { have: ids.filter((id) => one?.cautions.has(id)).length, of: ids.length },
    };
  };
  return { textsFor, languages, counts, cautions: base, problems, warnings };
}

function textsOf(
  chain: readonly Loaded[],
  own: readonly ReadonlyMap<string, CautionFile>[],
  dir: string,
  onFault: TextsOptions['onFault'],
): Texts {
  const language = chain[0]?.language;
  const told = new Set<string>();
  const report = (fault: string) => {
    if (!told.has(fault)) onFault?.(fault);
    told.add(fault);
  };
  const texts: Texts = {
    language: language?.code ?? BASE,
    direction: language?.direction ?? 'ltr',
    locale: language?.locale ?? BASE,
    checked: chain[0]?.checked ?? 'not-yet',
    say(id: string, params: Params = {}) {
      const text = chain.flatMap((one) => one.texts.get(id) ?? [])[0];
      if (text) return text.fill(params);
      const fault = `There are no words for "${id}". Write them in ${join(dir, BASE, 'messages.yaml')}.`;
      if (!onFault) throw new Error(fault);
      onFault(fault);
      return [id, ...Object.entries(params).map(([name, value]) => `${name} ${value}`)].join(', ');
    },
    caution(id): CautionWords {
      // The words of the catalogue are never looked for in the site's folder: nobody can soften them there.
      const sites = id.startsWith(SITE_CAUTION);
      const found = (sites ? own : chain.map((one) => one.cautions)).flatMap((one) => one.get(id) ?? [])[0];
      // A shift goes on with the cautions it was briefed on, whatever became of their words since.
      const goesOn = sites || onFault !== undefined;
      const file = sites
        ? `cautions/<language>/${id}.md of the site`
        : join(dir, BASE, 'cautions', `${id}.md`);
      if (!found) {
        const fault = `There are no words for the caution "${id}". Write them in ${file}.`;
        if (!goesOn) throw new Error(fault);
        report(fault);
        return goneWords(id, texts);
      }
      if (!goesOn) return found.words;
      return {
        ...found.words,
        question(question) {
          if (found.questions.some((one) => one.id === question)) return found.words.question(question);
          report(`There is no question "${question}" in ${file}. Write it there under ## Ask.`);
          return goneQuestion(texts);
        },
      };
    },
  };
  return texts;
}

function languageFolders(dir: string): readonly string[] {
  if (!existsSync(dir)) return [];
  return readdirSync(dir, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && /^[a-z]{2}$/.test(entry.name))
    .map((entry) => entry.name)
    .sort();
}

function noWords(file: string, id: string, hasEnglish: boolean): PackProblem {
  return {
    file,
    line: 1,
    column: 1,
    field: id,
    found: '',
    message: hasEnglish ? 'this text is missing, the English one is shown' : 'this text is missing',
    write: `${id} and its words`,
  };
}
