/**
 * Block elements. Limits: comments of @slack/types 3.2.0 (block-elements), docs.slack.dev/reference/block-kit/block-elements.
 */
import {
  CONFIRM,
  focusOnce,
  ID,
  initialMatches,
  OPTION_GROUP,
  OVERFLOW_OPTION,
  oneListOfOptions,
  PLAIN_OPTION,
  plain,
  RICH_OPTION,
  STYLE,
  URL_TEXT,
} from './parts.ts';
import { RICH_TEXT } from './rich-text.ts';
import {
  anything,
  bool,
  type Fields,
  int,
  many,
  type ObjectRule,
  type Rule,
  report,
  shape,
  str,
} from './rules.ts';

const ACTION: Fields = { action_id: ID };
const ASK: Fields = { ...ACTION, confirm: CONFIRM };
const FOCUS: Fields = { focus_on_load: bool };
const HINT: Fields = { placeholder: plain(150) };
const SELECT: Fields = { ...ASK, ...FOCUS, ...HINT };
const MULTI: Fields = { ...SELECT, max_selected_items: int(1, Number.MAX_SAFE_INTEGER) };
const DISPATCH: Fields = {
  dispatch_action_config: shape(
    {},
    { trigger_actions_on: many(str({ oneOf: ['on_enter_pressed', 'on_character_entered'] }), 1, 2) },
  ),
};
const OPTIONS: Fields = { options: many(PLAIN_OPTION, 1, 100), option_groups: many(OPTION_GROUP, 1, 100) };
const CONVERSATIONS: Fields = {
  filter: anything,
  default_to_current_conversation: bool,
};
const NUMBER = str({ pattern: /^-?\d+(\.\d+)?$/ });
const TYPED: Fields = { ...ACTION, ...FOCUS, ...HINT, ...DISPATCH };

/** Exactly one of image_url and slack_file. */
export const oneSource: ObjectRule = (value, at, walk) => {
  const given = ['image_url', 'slack_file'].filter((name) => value[name] !== undefined);
  if (given.length !== 1) {
    report(
      walk,
      at,
      'only_one_of',
      ['image_url', 'slack_file'],
      'give exactly one of image_url and slack_file',
    );
  }
};

export const IMAGE_SOURCE: Fields = {
  image_url: URL_TEXT,
  slack_file: shape({}, { id: str(), url: URL_TEXT }),
};

const lengthsInOrder: ObjectRule = (value, at, walk) => {
  const min = value.min_length;
  const max = value.max_length;
  if (typeof min === 'number' && typeof max === 'number' && min > max) {
    report(walk, `${at}/min_length`, 'maximum', max, 'min_length must not be more than max_length');
  }
};

const numbersInOrder: ObjectRule = (value, at, walk) => {
  const min = Number(value.min_value ?? Number.NEGATIVE_INFINITY);
  const max = Number(value.max_value ?? Number.POSITIVE_INFINITY);
  if (min > max) report(walk, `${at}/min_value`, 'maximum', max, 'min_value must not be more than max_value');
  const first = value.initial_value;
  if (typeof first === 'string' && (Number(first) < min || Number(first) > max)) {
    report(
      walk,
      `${at}/initial_value`,
      'range',
      [min, max],
      'initial_value must lie between min_value and max_value',
    );
  }
};

const realDate: ObjectRule = (value, at, walk) => {
  const first = value.initial_date;
  if (typeof first !== 'string' || !/^\d{4}-\d\d-\d\d$/.test(first)) return;
  const day = new Date(`${first}T00:00:00Z`);
  if (Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== first) {
    report(walk, `${at}/initial_date`, 'format', 'YYYY-MM-DD', 'must be a day of the calendar');
  }
};

const feedback = shape(
  { text: plain(75), value: str({ max: 2000 }) },
  { accessibility_label: str({ max: 75 }) },
);
const select = (need: Fields, may: Fields): Rule =>
  shape(need, { ...SELECT, ...may }, focusOnce, initialMatches);
const multi = (need: Fields, may: Fields): Rule =>
  shape(need, { ...MULTI, ...may }, focusOnce, initialMatches);

export const ELEMENTS: { readonly [type: string]: Rule } = {
  button: shape(
    { text: plain(75) },
    { ...ASK, value: str({ max: 2000 }), url: URL_TEXT, style: STYLE, accessibility_label: str({ max: 75 }) },
  ),
  workflow_button: shape(
    { text: plain(75), workflow: anything },
    { ...ASK, style: STYLE, accessibility_label: str({ max: 75 }) },
  ),
  checkboxes: shape(
    { options: many(RICH_OPTION, 1, 10) },
    { ...ASK, ...FOCUS, initial_options: many(RICH_OPTION, 1, 10) },
    focusOnce,
    initialMatches,
  ),
  radio_buttons: shape(
    { options: many(RICH_OPTION, 1, 10) },
    { ...ASK, ...FOCUS, initial_option: RICH_OPTION },
    focusOnce,
    initialMatches,
  ),
  overflow: shape({ options: many(OVERFLOW_OPTION, 1, 5) }, ASK),
  datepicker: shape(
    {},
    { ...SELECT, initial_date: str({ pattern: /^\d{4}-\d\d-\d\d$/ }) },
    focusOnce,
    realDate,
  ),
  timepicker: shape(
    {},
    { ...SELECT, initial_time: str({ pattern: /^([01]\d|2[0-3]):[0-5]\d$/ }), timezone: str() },
    focusOnce,
  ),
  datetimepicker: shape(
    {},
    { ...ASK, ...FOCUS, initial_date_time: int(1_000_000_000, 9_999_999_999) },
    focusOnce,
  ),
  static_select: shape(
    {},
    { ...SELECT, ...OPTIONS, initial_option: PLAIN_OPTION },
    focusOnce,
    oneListOfOptions,
    initialMatches,
  ),
  multi_static_select: shape(
    {},
    { ...MULTI, ...OPTIONS, initial_options: many(PLAIN_OPTION, 1, 100) },
    focusOnce,
    oneListOfOptions,
    initialMatches,
  ),
  external_select: shape(
    {},
    { ...SELECT, initial_option: PLAIN_OPTION, min_query_length: int(0, 255) },
    focusOnce,
  ),
  multi_external_select: shape(
    {},
    { ...MULTI, initial_options: many(PLAIN_OPTION, 1, 100), min_query_length: int(0, 255) },
    focusOnce,
  ),
  users_select: select({}, { initial_user: str() }),
  multi_users_select: multi({}, { initial_users: many(str(), 1, 1000) }),
  channels_select: select({}, { initial_channel: str(), response_url_enabled: bool }),
  multi_channels_select: multi({}, { initial_channels: many(str(), 1, 1000) }),
  conversations_select: select(
    {},
    { ...CONVERSATIONS, initial_conversation: str(), response_url_enabled: bool },
  ),
  multi_conversations_select: multi({}, { ...CONVERSATIONS, initial_conversations: many(str(), 1, 1000) }),
  plain_text_input: shape(
    {},
    {
      ...TYPED,
      initial_value: str({ min: 0, max: 3000 }),
      multiline: bool,
      min_length: int(0, 3000),
      max_length: int(1, 3000),
    },
    focusOnce,
    lengthsInOrder,
  ),
  number_input: shape(
    { is_decimal_allowed: bool },
    { ...TYPED, initial_value: NUMBER, min_value: NUMBER, max_value: NUMBER },
    focusOnce,
    numbersInOrder,
  ),
  email_text_input: shape({}, { ...TYPED, initial_value: str() }, focusOnce),
  url_text_input: shape({}, { ...TYPED, initial_value: str() }, focusOnce),
  rich_text_input: shape(
    {},
    { ...TYPED, initial_value: RICH_TEXT, min_lines: int(1, 100), max_lines: int(1, 100) },
    focusOnce,
  ),
  file_input: shape({}, { ...ACTION, filetypes: many(str(), 1, 100), max_files: int(1, 10) }),
  image: shape({ alt_text: str({ max: 2000 }) }, IMAGE_SOURCE, oneSource),
  feedback_buttons: shape({ positive_button: feedback, negative_button: feedback }, ACTION),
  icon_button: shape(
    { icon: str(), text: plain(75) },
    {
      ...ASK,
      accessibility_label: str({ max: 75 }),
      value: str({ max: 2000 }),
      visible_to_user_ids: many(str(), 1, 1000),
    },
  ),
};
