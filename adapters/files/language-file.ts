import type { PackProblem } from './problem.ts';
import { readYaml, type YamlFile } from './yaml-file.ts';

export interface Language {
  /** The folder's name, two letters. */
  readonly code: string;
  /** What its speakers call it. */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
  /** How its readers write numbers and dates, such as "en-GB". */
  readonly locale: string;
  /** A machine's draft carries a mark in every file, and its readers are told until somebody has checked it. */
  readonly drafted: Drafted;
}

export type Drafted = 'machine' | 'by-hand';

/** `templates/<code>/language.yaml`: `name`, `direction`, `locale` and `drafted`. */
export function readLanguage(
  file: string,
  code: string,
): { readonly language: Language; readonly problems: readonly PackProblem[] } {
  const { yaml, problems } = readYaml(file);
  const given: Record<string, unknown> =
    typeof yaml?.data === 'object' && yaml.data !== null ? { ...yaml.data } : {};
  const { name, direction, locale, drafted, ...rest } = given;
  const found = [...problems];
  if (yaml) {
    const say = (field: string, message: string, write: string) =>
      found.push(at(yaml, field, message, write));
    if (!isName(name)) say('name', 'the name of the language is missing', 'name: English');
    if (direction !== 'ltr' && direction !== 'rtl')
      say('direction', 'the direction of writing is missing', 'direction: ltr, or rtl from right to left');
    if (!isLocale(locale, code))
      say(
        'locale',
        `how numbers and dates are written is missing, or not one of this language`,
        `locale: ${code} with a country, such as ${code === 'en' ? 'en-GB' : `${code}-${code.toUpperCase()}`}`,
      );
    if (drafted !== 'machine' && drafted !== 'by-hand')
      say('drafted', 'it does not say who wrote the words', 'drafted: machine, or by-hand');
    for (const key of Object.keys(rest))
      say(key, 'there is no such field here', 'nothing; the fields are name, direction, locale and drafted');
  }
  const language: Language = {
    code,
    name: isName(name) ? name : code,
    direction: direction === 'rtl' ? 'rtl' : 'ltr',
    locale: isLocale(locale, code) ? locale : code,
    // Unknown counts as the draft that nobody has checked.
    drafted: drafted === 'by-hand' ? 'by-hand' : 'machine',
  };
  return { language, problems: found };
}

const isName = (name: unknown): name is string => typeof name === 'string' && name.trim() !== '';

/** A locale of this very language that this Node can write in. */
function isLocale(locale: unknown, code: string): locale is string {
  if (typeof locale !== 'string' || !/^[a-z]{2}(-[A-Za-z0-9]{2,8})*$/.test(locale)) return false;
  if (locale.split('-')[0] !== code) return false;
  return Intl.NumberFormat.supportedLocalesOf(locale).length > 0;
}

function at(yaml: YamlFile, field: string, message: string, write: string): PackProblem {
  const { line, column, found } = yaml.spot([field]);
  return { file: yaml.file, line, column, field, found, message, write };
}
