import { join } from 'node:path';
import { type LanguageChecks, languageChecks } from './language-state.ts';
import { type Counted, type LoadedTexts, loadTexts, type TextsOptions } from './load-texts.ts';
import { templatesFolder } from './package-root.ts';

export interface LanguageReport extends LanguageChecks {
  readonly code: string;
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
  readonly locale: string;
  readonly drafted: 'machine' | 'by-hand';
  readonly texts: Counted;
  readonly cautions: Counted;
  /** Nothing falls back to English. */
  readonly complete: boolean;
}

/** Every language of a templates folder: how much of it there is, and who has read it. */
export function reportLanguages(
  dir: string = templatesFolder(),
  options: TextsOptions = {},
): { readonly languages: readonly LanguageReport[]; readonly problems: LoadedTexts['problems'] } {
  const loaded = loadTexts(dir, options);
  const languages = loaded.languages.map((language): LanguageReport => {
    const folder = join(dir, language.code);
    const { texts, cautions } = loaded.counts(language.code);
    return {
      ...language,
      texts,
      cautions,
      complete: texts.have === texts.of && cautions.have === cautions.of,
      ...languageChecks(folder),
    };
  });
  return { languages, problems: loaded.problems };
}
