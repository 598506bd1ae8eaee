/**
 * Payloads with one fault each that is no matter of number.
 * Source: comments of @slack/types 3.2.0; docs.slack.dev/reference/block-kit and /reference/views.
 */

import type { Surface } from './validate.ts';
import {
  actions,
  button,
  divider,
  home,
  input,
  message,
  modal,
  mrkdwn,
  option,
  options,
  plain,
  table,
  times,
} from './validate-makers.ts';

/** Each row: what is wrong, where, which constraint, and the payload. */
export const WRONG: [string, string, string, [Surface, unknown]][] = [
  ['an unknown block', '/0/type', 'enum', message({ type: 'banner' })],
  ['an unknown element', '/0/elements/0/type', 'enum', message(actions({ type: 'slider' }))],
  ['an input among actions', '/0/elements/0/type', 'enum', message(actions({ type: 'plain_text_input' }))],
  ['an empty text', '/0/text/text', 'min_length', message({ type: 'section', text: mrkdwn(0) })],
  ['a section with nothing', '/0/text', 'required', message({ type: 'section' })],
  ['no elements', '/0/elements', 'min_items', message(actions())],
  ['mrkdwn in a header', '/0/text/type', 'enum', message({ type: 'header', text: mrkdwn(3) })],
  ['mrkdwn on a button', '/0/elements/0/text/type', 'enum', message(actions(button({ text: mrkdwn(3) })))],
  [
    'mrkdwn in a select',
    '/0/elements/0/options/0/text/type',
    'enum',
    message(actions({ type: 'static_select', options: [{ text: mrkdwn(2), value: 'v' }] })),
  ],
  ['a bare string as text', '/0/text', 'type', message({ type: 'section', text: 'words' })],
  [
    'an image without alt_text',
    '/0/alt_text',
    'required',
    message({ type: 'image', image_url: 'https://x.test/a.png' }),
  ],
  ['an image without a source', '/0', 'only_one_of', message({ type: 'image', alt_text: 'a' })],
  ['a strange colour', '/0/elements/0/style', 'enum', message(actions(button({ style: 'warning' })))],
  ['a strange property', '/0/colour', 'additional_property', message({ type: 'divider', colour: 'red' })],
  [
    'a doubled block_id',
    '/1/block_id',
    'unique',
    message({ ...divider(), block_id: 'a' }, { ...divider(), block_id: 'a' }),
  ],
  [
    'a doubled action_id',
    '/0/elements/1/action_id',
    'unique',
    message(actions(button({ action_id: 'a' }), button({ action_id: 'a' }))),
  ],
  [
    'an initial option not offered',
    '/0/elements/0/initial_option',
    'one_of_options',
    message(actions({ type: 'static_select', options: options(2), initial_option: option(3) })),
  ],
  [
    'options and groups',
    '/0/elements/0',
    'only_one_of',
    message(
      actions({
        type: 'static_select',
        options: options(1),
        option_groups: [{ label: plain(1), options: options(1) }],
      }),
    ),
  ],
  [
    'a time of day that is none',
    '/0/elements/0/initial_time',
    'pattern',
    message(actions({ type: 'timepicker', initial_time: '24:00' })),
  ],
  [
    'a day that is none',
    '/0/elements/0/initial_date',
    'format',
    message(actions({ type: 'datepicker', initial_date: '2026-02-30' })),
  ],
  ['two tables', '', 'max_tables', message(table(1, 1), table(1, 1))],
  ['no list of blocks', '', 'type', ['message', 'blocks']],
  ['a table in a modal', '/blocks/0/type', 'surface', modal([table(1, 1)])],
  ['file_input in a message', '/0/element/type', 'surface', message(input({ type: 'file_input' }))],
  [
    'an input without a submit',
    '/submit',
    'required',
    ['modal', { type: 'modal', title: plain(3), blocks: [input({ type: 'plain_text_input' })] }],
  ],
  ['a modal without a title', '/title', 'required', ['modal', { type: 'modal', blocks: [] }]],
  ['a title on a Home', '/title', 'additional_property', home([], { title: plain(3) })],
  ['a modal published as Home', '/type', 'enum', ['home', { type: 'modal', blocks: [] }]],
  [
    'two fields with the focus',
    '/blocks/1/element/focus_on_load',
    'unique',
    modal(times(2, () => input({ type: 'plain_text_input', focus_on_load: true }))),
  ],
  [
    'lengths the wrong way round',
    '/blocks/0/element/min_length',
    'maximum',
    modal([input({ type: 'plain_text_input', min_length: 9, max_length: 3 })]),
  ],
  [
    'a number out of its range',
    '/blocks/0/element/initial_value',
    'range',
    modal([input({ type: 'number_input', is_decimal_allowed: true, initial_value: '9', max_value: '3' })]),
  ],
  [
    'a rich text part that is none',
    '/0/elements/0/type',
    'enum',
    message({ type: 'rich_text', elements: [{ type: 'text', text: 'x' }] }),
  ],
];
