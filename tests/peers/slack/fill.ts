/** Values of input elements in the platform's own shape: what stands there first, and what a person puts in. */
import { type Dict, dicts, isDict, label, list, text } from './json.ts';

export type Field = { blockId: string; actionId: string; block: Dict; element: Dict };
export type Values = { [blockId: string]: { [actionId: string]: Dict } };

/** Every element of a view or a message's blocks that holds a value. */
export function fieldsIn(view: Dict): Field[] {
  return dicts(view.blocks).flatMap((block) =>
    [block.element, block.accessory, ...list(block.elements)]
      .filter(isDict)
      .filter((element) => emptyValue(element) !== null)
      .map((element) => ({
        blockId: text(block.block_id),
        actionId: text(element.action_id),
        block,
        element,
      })),
  );
}

/** Where each element type keeps its value, and what it holds when empty. */
const KEYS: {
  readonly [type: string]: readonly [key: string, empty: null | readonly never[], first: string];
} = {
  plain_text_input: ['value', null, 'initial_value'],
  number_input: ['value', null, 'initial_value'],
  email_text_input: ['value', null, 'initial_value'],
  url_text_input: ['value', null, 'initial_value'],
  rich_text_input: ['rich_text_value', null, 'initial_value'],
  datepicker: ['selected_date', null, 'initial_date'],
  timepicker: ['selected_time', null, 'initial_time'],
  datetimepicker: ['selected_date_time', null, 'initial_date_time'],
  static_select: ['selected_option', null, 'initial_option'],
  external_select: ['selected_option', null, 'initial_option'],
  radio_buttons: ['selected_option', null, 'initial_option'],
  checkboxes: ['selected_options', [], 'initial_options'],
  multi_static_select: ['selected_options', [], 'initial_options'],
  multi_external_select: ['selected_options', [], 'initial_options'],
  users_select: ['selected_user', null, 'initial_user'],
  multi_users_select: ['selected_users', [], 'initial_users'],
  channels_select: ['selected_channel', null, 'initial_channel'],
  multi_channels_select: ['selected_channels', [], 'initial_channels'],
  conversations_select: ['selected_conversation', null, 'initial_conversation'],
  multi_conversations_select: ['selected_conversations', [], 'initial_conversations'],
  file_input: ['files', [], 'none'],
};

function emptyValue(element: Dict): Dict | null {
  const key = KEYS[text(element.type)];
  return key === undefined ? null : { type: element.type, [key[0]]: key[1] };
}

export function startValues(view: Dict): Values {
  const values: Values = {};
  for (const { blockId, actionId, element } of fieldsIn(view)) {
    const key = KEYS[text(element.type)];
    if (key === undefined) continue;
    const [name, empty, first] = key;
    const value: Dict = { type: element.type, [name]: element[first] ?? empty };
    values[blockId] = { ...values[blockId], [actionId]: value };
  }
  return values;
}

export function isEmpty(value: Dict | undefined): boolean {
  if (value === undefined) return true;
  const key = KEYS[text(value.type)];
  const held = key === undefined ? null : value[key[0]];
  return held === null || held === '' || (Array.isArray(held) && held.length === 0);
}

export type Answer = string | readonly string[];

/** The value after a person put `answer` in; throws when their own app would not let them. */
export function answered(field: Field, answer: Answer): Dict {
  const { element } = field;
  const type = text(element.type);
  const key = KEYS[type];
  if (key === undefined) throw new Error(`A ${type} takes no value.`);
  const [name] = key;
  const many = typeof answer === 'string' ? (answer === '' ? [] : [answer]) : [...answer];
  const where = `${field.blockId}/${field.actionId} (${type})`;
  if (name.endsWith('s') && name !== 'selected_options') return { type, [name]: many };
  if (name === 'selected_options') return { type, [name]: many.map((one) => optionOf(element, one, where)) };
  if (many.length > 1) throw new Error(`${where} takes one value, not ${many.length}.`);
  const one = many[0] ?? '';
  if (one === '') return { type, [name]: null };
  if (name === 'selected_option') return { type, [name]: optionOf(element, one, where) };
  if (name === 'selected_date_time') return { type, [name]: Number(one) };
  if (name === 'rich_text_value') {
    const section = { type: 'rich_text_section', elements: [{ type: 'text', text: one }] };
    return { type, [name]: { type: 'rich_text', elements: [section] } };
  }
  keptOut(element, one, where);
  return { type, [name]: one };
}

/** What the person's own app checks before it sends anything. */
function keptOut(element: Dict, given: string, where: string): void {
  const least = Number(element.min_length ?? 0);
  const most = Number(element.max_length ?? 3000);
  if (given.length < least) throw new Error(`${where}: '${given}' is shorter than ${least} characters.`);
  if (given.length > most) throw new Error(`${where}: ${given.length} characters are more than ${most}.`);
  const pattern = PATTERNS[text(element.type)];
  if (pattern !== undefined && !pattern.test(given)) throw new Error(`${where} cannot hold '${given}'.`);
  if (element.type !== 'number_input') return;
  if (element.is_decimal_allowed !== true && !/^-?\d+$/.test(given)) {
    throw new Error(`${where} takes whole numbers only, not '${given}'.`);
  }
  const low = Number(element.min_value ?? Number.NEGATIVE_INFINITY);
  const high = Number(element.max_value ?? Number.POSITIVE_INFINITY);
  if (Number(given) < low || Number(given) > high)
    throw new Error(`${where}: ${given} is not from ${low} to ${high}.`);
}

const PATTERNS: { readonly [type: string]: RegExp } = {
  number_input: /^-?\d+(\.\d+)?$/,
  datepicker: /^\d{4}-\d\d-\d\d$/,
  timepicker: /^([01]\d|2[0-3]):[0-5]\d$/,
  email_text_input: /^\S+@\S+$/,
  url_text_input: /^https?:\/\/\S+$/,
};

/** The option with this value, or else with this label. */
export function optionOf(element: Dict, wanted: string, where: string): Dict {
  const options = [
    ...dicts(element.options),
    ...dicts(element.option_groups).flatMap((group) => dicts(group.options)),
  ];
  const found =
    options.find((one) => one.value === wanted) ?? options.find((one) => label(one.text) === wanted);
  if (found === undefined) {
    const offered = options.map((one) => `${text(one.value)} (${label(one.text)})`).join(', ');
    throw new Error(`${where} does not offer '${wanted}'; it offers: ${offered}.`);
  }
  const { text: words, value } = found;
  return { text: words, value };
}
