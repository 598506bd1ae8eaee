/**
 * Blocks and where each may stand. Limits: comments of @slack/types 3.2.0 (blocks),
 * docs.slack.dev/reference/block-kit/blocks.
 */
import { list } from '../json.ts';
import { ELEMENTS, IMAGE_SOURCE, oneSource } from './elements.ts';
import { anyText, ID, mrkdwn, plain, URL_TEXT } from './parts.ts';
import { RICH_TEXT, RICH_TEXT_ELEMENTS } from './rich-text.ts';
import {
  anything,
  bool,
  type Fields,
  int,
  many,
  type ObjectRule,
  pick,
  type Rule,
  report,
  type Surface,
  shape,
  str,
  typed,
} from './rules.ts';

const BLOCK: Fields = { block_id: ID };
const CHOOSERS = [
  'static_select',
  'external_select',
  'users_select',
  'conversations_select',
  'channels_select',
];
const SELECTS = [...CHOOSERS, ...CHOOSERS.map((name) => `multi_${name}`)];
const PICKERS = ['checkboxes', 'radio_buttons', 'datepicker', 'timepicker'];
const ACTIONS = [
  'button',
  'workflow_button',
  'overflow',
  'datetimepicker',
  'rich_text_input',
  ...PICKERS,
  ...SELECTS,
];
const ACCESSORIES = ['button', 'workflow_button', 'overflow', 'image', ...PICKERS, ...SELECTS];
const TYPED = ['plain_text_input', 'number_input', 'email_text_input', 'url_text_input', 'rich_text_input'];
const INPUTS = ['datetimepicker', 'file_input', ...TYPED, ...PICKERS, ...SELECTS];
const element = (names: readonly string[]): Rule => typed(pick(ELEMENTS, names), 'element');
const CELL: Rule = typed(
  {
    raw_text: shape({ text: str() }),
    raw_number: shape({ value: anything, text: str() }),
    rich_text: shape({ elements: RICH_TEXT_ELEMENTS }, BLOCK),
  },
  'table cell',
);
const IMAGE = element(['image']);
const BUTTONS = many(element(['button']), 1, 25);

const textOrFields: ObjectRule = (value, at, walk) => {
  if (value.text === undefined && value.fields === undefined) {
    report(walk, `${at}/text`, 'required', 'text', 'missing required field: text (or fields)');
  }
};

const notEmptyCard: ObjectRule = (value, at, walk) => {
  const parts = ['hero_image', 'title', 'actions', 'body'];
  if (!parts.some((name) => value[name] !== undefined)) {
    report(walk, at, 'required', parts, 'a card needs a hero_image, title, actions or body');
  }
};

/** "Should be unique among all other action_ids in the containing block" (@slack/types 3.2.0, Actionable). */
const uniqueActions: ObjectRule = (value, at, walk) => {
  const seen = new Set<unknown>();
  list(value.elements).forEach((one, index) => {
    const id = typeof one === 'object' && one !== null && 'action_id' in one ? one.action_id : undefined;
    if (typeof id !== 'string') return;
    if (seen.has(id)) {
      report(
        walk,
        `${at}/elements/${index}/action_id`,
        'unique',
        id,
        `action_id "${id}" already exists in this block`,
      );
    }
    seen.add(id);
  });
};

const CARD = shape(
  {},
  {
    ...BLOCK,
    hero_image: IMAGE,
    icon: IMAGE,
    title: mrkdwn(150),
    subtitle: mrkdwn(150),
    body: mrkdwn(200),
    actions: BUTTONS,
  },
  notEmptyCard,
);
const TASK = shape(
  {
    task_id: str(),
    title: str(),
    status: str({ oneOf: ['pending', 'in_progress', 'complete', 'error'] }),
  },
  { ...BLOCK, details: RICH_TEXT, output: RICH_TEXT, sources: many(anything, 1, 100) },
);

export const BLOCKS: { readonly [type: string]: Rule } = {
  section: shape(
    {},
    {
      ...BLOCK,
      text: anyText(3000),
      fields: many(anyText(2000), 1, 10),
      accessory: element(ACCESSORIES),
      expand: bool,
    },
    textOrFields,
  ),
  header: shape({ text: plain(150) }, BLOCK),
  divider: shape({}, BLOCK),
  context: shape(
    {
      elements: many(
        typed(
          {
            plain_text: anyText(3000),
            mrkdwn: anyText(3000),
            ...pick(ELEMENTS, ['image']),
          },
          'element',
        ),
        1,
        10,
      ),
    },
    BLOCK,
  ),
  actions: shape({ elements: many(element(ACTIONS), 1, 25) }, BLOCK, uniqueActions),
  context_actions: shape(
    { elements: many(element(['feedback_buttons', 'icon_button']), 1, 5) },
    BLOCK,
    uniqueActions,
  ),
  input: shape(
    { label: plain(2000), element: element(INPUTS) },
    { ...BLOCK, hint: plain(2000), optional: bool, dispatch_action: bool },
  ),
  image: shape(
    { alt_text: str({ max: 2000 }) },
    { ...BLOCK, ...IMAGE_SOURCE, title: plain(2000) },
    oneSource,
  ),
  rich_text: shape({ elements: RICH_TEXT_ELEMENTS }, BLOCK),
  markdown: shape({ text: str({ max: 12_000 }) }, BLOCK),
  table: shape(
    { rows: many(many(CELL, 1, 20), 1, 100) },
    {
      ...BLOCK,
      column_settings: many(
        shape({}, { align: str({ oneOf: ['left', 'center', 'right'] }), is_wrapped: bool }),
        1,
        20,
      ),
    },
  ),
  data_table: shape(
    { rows: many(many(CELL, 1, 20), 1, 1000), caption: str() },
    { ...BLOCK, page_size: int(1, 100), row_header_column_index: int(0, 19) },
  ),
  alert: shape(
    { text: anyText(3000) },
    { ...BLOCK, level: str({ oneOf: ['default', 'info', 'warning', 'error', 'success'] }) },
  ),
  card: CARD,
  carousel: shape({ elements: many(typed({ card: CARD }, 'block'), 1, 10) }, BLOCK),
  task_card: TASK,
  plan: shape({ title: str() }, { ...BLOCK, tasks: many(typed({ task_card: TASK }, 'block'), 1, 100) }),
  video: shape(
    { video_url: URL_TEXT, thumbnail_url: URL_TEXT, alt_text: str(), title: plain(199) },
    {
      ...BLOCK,
      title_url: URL_TEXT,
      author_name: str({ max: 49 }),
      provider_name: str(),
      provider_icon_url: URL_TEXT,
      description: plain(200),
    },
  ),
};

/** Blocks that stand in messages only (docs.slack.dev/reference/block-kit/blocks, "Available in surfaces"). */
const MESSAGE_ONLY = new Set([
  'markdown',
  'table',
  'data_table',
  'context_actions',
  'task_card',
  'plan',
  'card',
  'carousel',
]);

export function standsOn(type: string, surface: Surface): boolean {
  return surface === 'message' || !MESSAGE_ONLY.has(type);
}
