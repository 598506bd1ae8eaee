import type { PackProblem } from './problem.ts';
import { readYaml, type YamlFile } from './yaml-file.ts';

export interface Language {
  /** The folder's name, two letters. */
  readonly code: string;
  /** What its speakers call it. */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
}

/** `templates/<code>/language.yaml`: `name` and `direction`. */
export function readLanguage(
  file: string,
  code: string,
): { readonly language: Language; readonly problems: readonly PackProblem[] } {
  const { yaml, problems } = readYaml(file);
  const given: Record<string, unknown> =
    typeof yaml?.data === 'object' && yaml.data !== null ? { ...yaml.data } : {};
  const { name, direction, ...rest } = given;
  const found = [...problems];
  if (yaml) {
    if (typeof name !== 'string' || name.trim() === '')
      found.push(at(yaml, 'name', 'the name of the language is missing', 'name: English'));
    if (direction !== 'ltr' && direction !== 'rtl')
      found.push(
        at(
          yaml,
          'direction',
          'the direction of writing is missing',
          'direction: ltr, or rtl from right to left',
        ),
      );
    for (const key of Object.keys(rest))
      found.push(at(yaml, key, 'there is no such field here', 'nothing; the fields are name and direction'));
  }
  const language: Language = {
    code,
    name: typeof name === 'string' && name.trim() !== '' ? name : code,
    direction: direction === 'rtl' ? 'rtl' : 'ltr',
  };
  return { language, problems: found };
}

function at(yaml: YamlFile, field: string, message: string, write: string): PackProblem {
  const { line, column, found } = yaml.spot([field]);
  return { file: yaml.file, line, column, field, found, message, write };
}
