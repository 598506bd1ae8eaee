import { type LoadedSite, loadWords } from './site.ts';

/** What is in order and still wants a look: what the pack says of itself, and who would read no checked words of their own. */
export function siteWarnings(loaded: LoadedSite): readonly string[] {
  return [...loaded.warnings, ...languageWarnings(loaded)];
}

function languageWarnings(loaded: LoadedSite): readonly string[] {
  const { people, site } = loaded.pack;
  const textsFor = loadWords(loaded);
  const readers = new Map<string, string[]>();
  for (const { name, language } of people) readers.set(language, [...(readers.get(language) ?? []), name]);
  return [...readers].flatMap(([language, names]) => {
    const texts = textsFor(language);
    const who = `${names.join(', ')}: language "${language}"`;
    if (texts.language !== language)
      return [
        `${who} has no words in Potbell, "${texts.language}" is shown. Add templates/${language}, or write another language in people.yaml.`,
      ];
    if (texts.checked === 'all') return [];
    return [
      `${who} is a machine's draft nobody has checked. Have a competent speaker read it before use on ${site.name}: potbell languages.`,
    ];
  });
}
