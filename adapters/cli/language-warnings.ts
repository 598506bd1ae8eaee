import type { SitePack } from '../../src/model/site.ts';
import type { TextsFor } from '../../src/texts/texts.ts';

/** Languages of this site's people that Potbell does not have, or has only as a draft that nobody has checked. */
export function languageWarnings({ people, site }: SitePack, textsFor: TextsFor): readonly string[] {
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
