import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Params } from '../../src/briefing/caution.ts';
import { textIds } from '../../src/texts/text-ids.ts';
import type { CautionWords, Texts, TextsFor } from '../../src/texts/texts.ts';
import type { Units } from '../../src/units/quantity.ts';
import type { CautionFile } from './caution-file.ts';
import { readCautions } from './caution-folder.ts';
import { type CompiledText, reporting, unguarded } from './compile-text.ts';
import { type Language, readLanguage } from './language-file.ts';
import { type DeclaredTexts, readMessages } from './messages-file.ts';
import { templatesFolder } from './package-root.ts';
import type { PackProblem } from './problem.ts';

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
  /**
   * Told when a text cannot be filled; then the text is shown with its placeholders, so that a warning still reaches
   * people. Without it such a text throws.
   */
  readonly onFault?: (what: string) => void;
}

export interface LoadedTexts {
  readonly textsFor: TextsFor;
  readonly languages: readonly Language[];
  /** The English cautions by id, for checks of placeholders and questions. */
  readonly cautions: ReadonlyMap<string, CautionFile>;
  /** Start-up must stop on any of these. */
  readonly problems: readonly PackProblem[];
  /** Texts of another language that fall back to English. */
  readonly warnings: readonly PackProblem[];
}

interface Loaded {
  readonly language: Language;
  readonly texts: ReadonlyMap<string, CompiledText>;
  readonly cautions: ReadonlyMap<string, CautionFile>;
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
    const messages = readMessages(file, code, declared, guard, options.units);
    const cautions = readCautions(join(folder, 'cautions'), code, {
      expected: options.cautions ?? null,
      base: base?.cautions ?? null,
      guard,
      units: options.units ?? 'metric',
    });
    problems.push(...wrong, ...messages.problems, ...cautions.problems);
    (base ? warnings : problems).push(...messages.missing.map((id) => noWords(file, id, base !== undefined)));
    warnings.push(...cautions.warnings);
    loaded.set(code, { language, texts: messages.texts, cautions: cautions.cautions });
  }
  const made = new Map<string, Texts>();
  // Read now and not when a data file is asked for: words that are changed on the disk meanwhile have not been checked.
  const metric = options.units === 'us' ? loadTexts(dir, { ...options, units: 'metric' }).textsFor : null;
  const textsFor: TextsFor = (language, units) => {
    if (units === 'metric' && metric) return metric(language);
    const order = [language, language.split('-')[0] ?? language, options.siteLanguage ?? BASE, BASE];
    const chain = [...new Set(order)].flatMap((code) => loaded.get(code) ?? []);
    const code = chain[0]?.language.code ?? BASE;
    const texts = made.get(code) ?? textsOf(chain, dir, options.onFault);
    made.set(code, texts);
    return texts;
  };
  const languages = [...loaded.values()].map((one) => one.language);
  return { textsFor, languages, cautions: loaded.get(BASE)?.cautions ?? new Map(), problems, warnings };
}

function textsOf(chain: readonly Loaded[], dir: string, onFault: TextsOptions['onFault']): Texts {
  const language = chain[0]?.language;
  return {
    language: language?.code ?? BASE,
    direction: language?.direction ?? 'ltr',
    say(id: string, params: Params = {}) {
      const text = chain.flatMap((one) => one.texts.get(id) ?? [])[0];
      if (text) return text.fill(params);
      const fault = `There are no words for "${id}". Write them in ${join(dir, BASE, 'messages.yaml')}.`;
      if (!onFault) throw new Error(fault);
      onFault(fault);
      return [id, ...Object.entries(params).map(([name, value]) => `${name} ${value}`)].join(', ');
    },
    caution(id): CautionWords {
      const found = chain.flatMap((one) => one.cautions.get(id) ?? [])[0];
      if (found) return found.words;
      const file = join(dir, BASE, 'cautions', `${id}.md`);
      throw new Error(`There are no words for the caution "${id}". Write them in ${file}.`);
    },
  };
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
