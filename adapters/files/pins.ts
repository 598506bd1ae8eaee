import { idSchema } from '../../src/model/id.ts';
import { nearest } from './nearest.ts';
import { oneOf } from './one-of.ts';
import { isPinLine } from './pins-schema.ts';
import type { PackProblem } from './problem.ts';
import { readYaml, type YamlFile } from './yaml-file.ts';

export interface Pins {
  /** By person id. Has no inherited names, so that an id such as "constructor" finds nothing. */
  readonly pins: Readonly<Record<string, string>>;
  readonly present: boolean;
  readonly problems: readonly PackProblem[];
}

/** `pins.yaml`. What stands in it is never repeated in a problem. `people`: the ids of the pack, null when unknown. */
export function readPins(file: string, people: readonly string[] | null): Pins {
  return read(file, people, {
    right: (value) => typeof value === 'string' && isPinLine(value),
    message: 'this is not a line made by "potbell pin"',
    write: 'the whole line that "potbell pin" printed for this person, in quotes',
  });
}

/** `demo-pins.yaml`: open PINs, which only a demo site may have. `demo`: null when site.yaml could not be read. */
export function readDemoPins(file: string, people: readonly string[] | null, demo: boolean | null): Pins {
  const result = read(file, people, {
    right: (value) => typeof value === 'string' && /^\d{4,8}$/.test(value),
    message: 'a demo PIN is 4 to 8 digits in quotes',
    write: '"4711" or other digits, in quotes so that a leading 0 stays',
  });
  if (!result.present || demo !== false) return result;
  const problem = {
    file,
    line: 1,
    column: 1,
    field: 'demo-pins',
    found: '',
    message: 'open PINs are only for the invented demo site, and site.demo is not true',
    write:
      'nothing, delete this file; for real PINs run "potbell pin" for each person and put its lines into pins.yaml',
  };
  return { ...result, pins: none(), problems: [problem] };
}

interface Rule {
  readonly right: (value: unknown) => boolean;
  readonly message: string;
  readonly write: string;
}

function read(file: string, people: readonly string[] | null, rule: Rule): Pins {
  const { yaml, missing, problems } = readYaml(file, { secret: true });
  if (missing) return { pins: none(), present: false, problems: [] };
  if (!yaml) return { pins: none(), present: true, problems };
  if (yaml.data === null) return { pins: none(), present: true, problems };
  if (typeof yaml.data !== 'object' || Array.isArray(yaml.data)) {
    const whole = at(
      yaml,
      [],
      'one line for each person is expected',
      'a person id, a colon, a space and the PIN line',
    );
    return { pins: none(), present: true, problems: [...problems, whole] };
  }
  const pins = none();
  const found = Object.entries(yaml.data).flatMap(([id, value]) => {
    const wrong = wrongId(yaml, id, people);
    if (wrong) return [wrong];
    if (!rule.right(value)) return [at(yaml, [id], rule.message, rule.write)];
    pins[id] = String(value);
    return [];
  });
  return { pins, present: true, problems: [...problems, ...found] };
}

function wrongId(yaml: YamlFile, id: string, people: readonly string[] | null): PackProblem | null {
  if (idSchema.safeParse(id).success && (people === null || people.includes(id))) return null;
  const known = people ?? [];
  const meant = nearest(id, known);
  const spot = yaml.keySpot([id]);
  return {
    file: yaml.file,
    line: spot.line,
    column: spot.column,
    field: id,
    found: id,
    message: 'there is no person with this id in people.yaml',
    write: `${meant === null ? '' : `${meant}, if that was meant; `}${known.length === 0 ? '' : `${oneOf(known)}; or `}take the line out`,
  };
}

function at(yaml: YamlFile, path: readonly string[], message: string, write: string): PackProblem {
  const { line, column } = yaml.spot(path);
  return { file: yaml.file, line, column, field: path.join('.'), found: '(not shown)', message, write };
}

function none(): Record<string, string> {
  return Object.create(null) as Record<string, string>;
}
