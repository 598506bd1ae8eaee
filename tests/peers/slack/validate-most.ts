/**
 * Every limit by number.
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
  of,
  option,
  options,
  plain,
  table,
  times,
} from './validate-makers.ts';

/** Each row: what, the largest number taken, and how to make a payload of a given number. */
export const MOST: [string, number, string, (n: number) => [Surface, unknown]][] = [
  ['blocks in a message', 50, '', (n) => message(...times(n, divider))],
  ['blocks in a modal', 100, '/blocks', (n) => modal(times(n, divider))],
  ['blocks in a Home', 100, '/blocks', (n) => home(times(n, divider))],
  ['section text', 3000, '/0/text/text', (n) => message({ type: 'section', text: mrkdwn(n) })],
  ['section fields', 10, '/0/fields', (n) => message({ type: 'section', fields: times(n, () => mrkdwn(1)) })],
  ['a section field', 2000, '/0/fields/0/text', (n) => message({ type: 'section', fields: [mrkdwn(n)] })],
  ['header text', 150, '/0/text/text', (n) => message({ type: 'header', text: plain(n) })],
  [
    'context elements',
    10,
    '/0/elements',
    (n) => message({ type: 'context', elements: times(n, () => mrkdwn(1)) }),
  ],
  ['context text', 3000, '/0/elements/0/text', (n) => message({ type: 'context', elements: [mrkdwn(n)] })],
  ['actions elements', 25, '/0/elements', (n) => message(actions(...times(n, () => button())))],
  ['button text', 75, '/0/elements/0/text/text', (n) => message(actions(button({ text: plain(n) })))],
  ['button value', 2000, '/0/elements/0/value', (n) => message(actions(button({ value: of(n) })))],
  ['button url', 3000, '/0/elements/0/url', (n) => message(actions(button({ url: `http://${of(n - 7)}` })))],
  [
    'accessibility label',
    75,
    '/0/elements/0/accessibility_label',
    (n) => message(actions(button({ accessibility_label: of(n) }))),
  ],
  ['action_id', 255, '/0/elements/0/action_id', (n) => message(actions(button({ action_id: of(n) })))],
  ['block_id', 255, '/0/block_id', (n) => message({ type: 'divider', block_id: of(n) })],
  ['callback_id', 255, '/callback_id', (n) => modal([], { callback_id: of(n) })],
  ['external_id', 255, '/external_id', (n) => modal([], { external_id: of(n) })],
  ['private_metadata', 3000, '/private_metadata', (n) => modal([], { private_metadata: of(n) })],
  ['modal title', 24, '/title/text', (n) => modal([], { title: plain(n) })],
  ['modal submit', 24, '/submit/text', (n) => modal([], { submit: plain(n) })],
  ['modal close', 24, '/close/text', (n) => modal([], { close: plain(n) })],
  [
    'select options',
    100,
    '/0/elements/0/options',
    (n) => message(actions({ type: 'static_select', options: options(n) })),
  ],
  [
    'option groups',
    100,
    '/0/elements/0/option_groups',
    (n) =>
      message(
        actions({
          type: 'static_select',
          option_groups: times(n, () => ({ label: plain(3), options: options(1) })),
        }),
      ),
  ],
  [
    'radio options',
    10,
    '/0/elements/0/options',
    (n) => message(actions({ type: 'radio_buttons', options: options(n) })),
  ],
  [
    'checkbox options',
    10,
    '/0/elements/0/options',
    (n) => message(actions({ type: 'checkboxes', options: options(n) })),
  ],
  [
    'overflow options',
    5,
    '/0/elements/0/options',
    (n) => message(actions({ type: 'overflow', options: options(n) })),
  ],
  [
    'option text',
    75,
    '/0/elements/0/options/0/text/text',
    (n) => message(actions({ type: 'static_select', options: [{ text: plain(n), value: 'v' }] })),
  ],
  [
    'option value',
    75,
    '/0/elements/0/options/0/value',
    (n) => message(actions({ type: 'static_select', options: [{ text: plain(1), value: of(n) }] })),
  ],
  [
    'option description',
    75,
    '/0/elements/0/options/0/description/text',
    (n) => message(actions({ type: 'static_select', options: [{ ...option(0), description: plain(n) }] })),
  ],
  [
    'placeholder',
    150,
    '/blocks/0/element/placeholder/text',
    (n) => modal([input({ type: 'plain_text_input', placeholder: plain(n) })]),
  ],
  [
    'input label',
    2000,
    '/blocks/0/label/text',
    (n) => modal([input({ type: 'plain_text_input' }, { label: plain(n) })]),
  ],
  [
    'input hint',
    2000,
    '/blocks/0/hint/text',
    (n) => modal([input({ type: 'plain_text_input' }, { hint: plain(n) })]),
  ],
  [
    'max_length',
    3000,
    '/blocks/0/element/max_length',
    (n) => modal([input({ type: 'plain_text_input', max_length: n })]),
  ],
  [
    'confirm title',
    100,
    '/0/elements/0/confirm/title/text',
    (n) => message(actions(button({ confirm: { text: plain(1), title: plain(n) } }))),
  ],
  [
    'confirm text',
    300,
    '/0/elements/0/confirm/text/text',
    (n) => message(actions(button({ confirm: { text: plain(n) } }))),
  ],
  [
    'confirm yes',
    30,
    '/0/elements/0/confirm/confirm/text',
    (n) => message(actions(button({ confirm: { text: plain(1), confirm: plain(n) } }))),
  ],
  [
    'confirm no',
    30,
    '/0/elements/0/confirm/deny/text',
    (n) => message(actions(button({ confirm: { text: plain(1), deny: plain(n) } }))),
  ],
  [
    'image alt text',
    2000,
    '/0/alt_text',
    (n) => message({ type: 'image', image_url: 'https://x.test/a.png', alt_text: of(n) }),
  ],
  [
    'image url',
    3000,
    '/0/image_url',
    (n) => message({ type: 'image', image_url: `https://${of(n - 8)}`, alt_text: 'a' }),
  ],
  ['markdown text', 12_000, '/0/text', (n) => message({ type: 'markdown', text: of(n) })],
  ['table rows', 100, '/0/rows', (n) => message(table(n, 1))],
  ['table cells', 20, '/0/rows/0', (n) => message(table(1, n))],
  ['message text', 40_000, '/text', (n) => ['message', { text: of(n), blocks: [] }]],
];
