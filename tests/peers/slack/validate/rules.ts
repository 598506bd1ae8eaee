/** Small checks that the block tables are built of. Each reports where, what and how much was expected. */
import { type Dict, isDict } from '../json.ts';

export type Surface = 'message' | 'modal' | 'home';

/**
 * One fault, in the shape of the platform's own validator (docs.slack.dev/reference/methods/blocks.validate).
 * `pointer` is a JSON pointer from the block list for a message, and from the view for a modal or Home.
 */
export type Problem = {
  code: 'failed_constraint';
  message: string;
  pointer: string;
  constraint: { type: string; expected: unknown };
};

export type Walk = {
  surface: Surface;
  problems: Problem[];
  /** Every block_id met so far and where. */
  blockIds: Map<string, string>;
  /** Where `focus_on_load` was first true. */
  focus: string | null;
};

export type Rule = (value: unknown, at: string, walk: Walk) => void;

export function report(walk: Walk, at: string, type: string, expected: unknown, message: string): void {
  walk.problems.push({ code: 'failed_constraint', message, pointer: at, constraint: { type, expected } });
}

function kindOf(value: unknown): string {
  if (value === null) return 'null';
  return Array.isArray(value) ? 'array' : typeof value;
}

function isOf(value: unknown, wanted: string, at: string, walk: Walk): boolean {
  const found = kindOf(value);
  if (found === wanted) return true;
  report(walk, at, 'type', wanted, `must be a ${wanted}, not ${found}`);
  return false;
}

export type StringLimits = { min?: number; max?: number; pattern?: RegExp; oneOf?: readonly string[] };

/** A string; `min` is 1 unless told, since the platform refuses empty texts. */
export function str({ min = 1, max, pattern, oneOf }: StringLimits = {}): Rule {
  return (value, at, walk) => {
    if (!isOf(value, 'string', at, walk) || typeof value !== 'string') return;
    if (value.length < min) report(walk, at, 'min_length', min, `must be more than ${min - 1} characters`);
    if (max !== undefined && value.length > max) {
      report(walk, at, 'max_length', max, `must be less than ${max + 1} characters (has ${value.length})`);
    }
    if (pattern !== undefined && !pattern.test(value)) {
      report(walk, at, 'pattern', pattern.source, `must look like ${pattern.source}`);
    }
    if (oneOf !== undefined && !oneOf.includes(value)) {
      report(walk, at, 'enum', oneOf, `must be one of ${oneOf.join(', ')}, not '${value}'`);
    }
  };
}

export const bool: Rule = (value, at, walk) => {
  isOf(value, 'boolean', at, walk);
};

export function int(min: number, max: number): Rule {
  return (value, at, walk) => {
    if (!isOf(value, 'number', at, walk) || typeof value !== 'number') return;
    if (!Number.isInteger(value)) report(walk, at, 'type', 'integer', 'must be a whole number');
    if (value < min) report(walk, at, 'minimum', min, `must be ${min} or more`);
    if (value > max) report(walk, at, 'maximum', max, `must be ${max} or less`);
  };
}

export function many(item: Rule, min: number, max: number): Rule {
  return (value, at, walk) => {
    if (!isOf(value, 'array', at, walk) || !Array.isArray(value)) return;
    if (value.length < min) report(walk, at, 'min_items', min, `no fewer than ${min} items allowed`);
    if (value.length > max) {
      report(walk, at, 'max_items', max, `no more than ${max} items allowed (has ${value.length})`);
    }
    value.forEach((one, index) => {
      item(one, `${at}/${index}`, walk);
    });
  };
}

export type Fields = { readonly [name: string]: Rule };

/** An object with these fields and no others: the platform answers "invalid additional property". */
export function shape(need: Fields, may: Fields = {}, ...also: readonly ObjectRule[]): Rule {
  return (value, at, walk) => {
    if (!isOf(value, 'object', at, walk) || !isDict(value)) return;
    for (const [name, rule] of Object.entries(need)) {
      const at2 = `${at}/${name}`;
      if (value[name] === undefined) report(walk, at2, 'required', name, `missing required field: ${name}`);
      else rule(value[name], at2, walk);
    }
    for (const [name, rule] of Object.entries(may)) {
      if (value[name] !== undefined) rule(value[name], `${at}/${name}`, walk);
    }
    for (const name of Object.keys(value)) {
      if (name in need || name in may || name === 'type') continue;
      report(walk, `${at}/${name}`, 'additional_property', null, `invalid additional property: ${name}`);
    }
    for (const rule of also) rule(value, at, walk);
  };
}

/** A check over a whole object, run after its fields. */
export type ObjectRule = (value: Dict, at: string, walk: Walk) => void;

/** Picks the rule by the object's `type`. */
export function typed(rules: { readonly [type: string]: Rule }, what: string): Rule {
  const names = Object.keys(rules);
  return (value, at, walk) => {
    if (!isOf(value, 'object', at, walk) || !isDict(value)) return;
    const type = value.type;
    const rule = typeof type === 'string' && Object.hasOwn(rules, type) ? rules[type] : undefined;
    if (rule === undefined) {
      report(
        walk,
        `${at}/type`,
        'enum',
        names,
        `unsupported ${what} type: ${JSON.stringify(type) ?? 'none'}`,
      );
    } else rule(value, at, walk);
  };
}

export const anything: Rule = () => {};

export function pick(rules: { readonly [type: string]: Rule }, names: readonly string[]): Fields {
  return Object.fromEntries(
    names.map((name): [string, Rule] => {
      const rule = rules[name];
      if (rule === undefined) throw new Error(`There is no rule called '${name}'.`);
      return [name, rule];
    }),
  );
}
