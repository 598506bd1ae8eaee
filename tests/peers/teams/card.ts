/** Finding buttons and fields in an Adaptive Card, and filling the fields as the client does before it sends. */
import { type Dict, dict, dicts, isDict, text } from '../slack/json.ts';

/** Which button: by any of the three; together they must leave exactly one. */
export type Wanted = { title?: string; verb?: string; id?: string };

/** What a person typed or chose, by the field's id. */
export type Typed = { readonly [id: string]: string };

const NOT_SHOWN: ReadonlySet<string> = new Set(['fallback', 'refresh', 'authentication', 'data', 'msteams']);

function walk(value: unknown, visit: (part: Dict) => void): void {
  if (Array.isArray(value)) {
    for (const one of value) walk(one, visit);
    return;
  }
  if (!isDict(value)) return;
  visit(value);
  for (const [name, inner] of Object.entries(value)) if (!NOT_SHOWN.has(name)) walk(inner, visit);
}

function partsOf(card: Dict, prefix: string): Dict[] {
  const found: Dict[] = [];
  walk(card, (part) => {
    if (text(part.type).startsWith(prefix)) found.push(part);
  });
  return found;
}

export function actionsIn(card: Dict): Dict[] {
  return partsOf(card, 'Action.');
}

export function fieldsIn(card: Dict): Dict[] {
  return partsOf(card, 'Input.');
}

export function findAction(card: Dict, wanted: Wanted, where: string): Dict {
  const asked = Object.entries(wanted).filter(([, value]) => value !== undefined);
  if (asked.length === 0) throw new Error('Say which button: give a title, a verb or an id.');
  const all = actionsIn(card);
  const found = all.filter((one) => asked.every(([name, value]) => one[name] === value));
  const [only] = found;
  if (only === undefined || found.length > 1) {
    const titles = all.map((one) => `"${text(one.title)}"`).join(', ') || 'none';
    throw new Error(
      `${JSON.stringify(wanted)} is ${found.length} buttons in ${where}. Its buttons: ${titles}.`,
    );
  }
  return only;
}

/** Every field with its value, as it goes out beside the button's own data. Throws where the client would not send. */
export function filled(card: Dict, typed: Typed): Dict {
  const fields = fieldsIn(card);
  const ids = fields.map((one) => text(one.id));
  const stray = Object.keys(typed).find((id) => !ids.includes(id));
  if (stray !== undefined)
    throw new Error(`There is no field ${stray}. Fields: ${ids.join(', ') || 'none'}.`);
  return Object.fromEntries(fields.map((field) => [text(field.id), givenFor(field, typed)]));
}

function givenFor(field: Dict, typed: Typed): string {
  const id = text(field.id);
  const value = typed[id] ?? (field.value === undefined ? '' : String(field.value));
  if (value === '') {
    if (field.isRequired === true)
      throw new Error(`"${text(field.label) || id}" (${id}) is required and empty.`);
    return '';
  }
  const bad = wrong(field, value);
  if (bad !== null) throw new Error(`"${value}" cannot be given for ${id}: ${bad}.`);
  return value;
}

function wrong(field: Dict, value: string): string | null {
  switch (field.type) {
    case 'Input.Number': {
      const number = Number(value);
      if (Number.isNaN(number)) return 'not a number';
      if (typeof field.min === 'number' && number < field.min) return `less than ${field.min}`;
      return typeof field.max === 'number' && number > field.max ? `more than ${field.max}` : null;
    }
    case 'Input.ChoiceSet': {
      const choices = dicts(field.choices).map((one) => text(one.value));
      const chosen = field.isMultiSelect === true ? value.split(',') : [value];
      return chosen.every((one) => choices.includes(one)) ? null : `choices are ${choices.join(', ')}`;
    }
    case 'Input.Toggle':
      return [field.valueOn ?? 'true', field.valueOff ?? 'false'].includes(value)
        ? null
        : 'neither on nor off';
    case 'Input.Text': {
      if (typeof field.maxLength === 'number' && value.length > field.maxLength)
        return `over ${field.maxLength} long`;
      const pattern = text(field.regex);
      return pattern !== '' && !new RegExp(pattern).test(value) ? `does not match ${pattern}` : null;
    }
    case 'Input.Date':
      return /^\d{4}-\d\d-\d\d$/.test(value) ? null : 'not YYYY-MM-DD';
    case 'Input.Time':
      return /^\d\d:\d\d$/.test(value) ? null : 'not HH:MM';
  }
  return `a field of the unknown type ${text(field.type)}`;
}

/** The button's data with the fields, unless the button takes none of them. */
export function dataOf(card: Dict, action: Dict, typed: Typed): Dict {
  const own = dict(action.data);
  if (action.associatedInputs === 'none') return own;
  return { ...own, ...filled(card, typed) };
}
