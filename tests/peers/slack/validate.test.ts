import { describe, expect, it } from 'vitest';
import type { Dict } from './json.ts';
import { MOST_VIEW_BYTES, problemsIn, refusal } from './validate.ts';
import {
  actions,
  button,
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
import { MOST } from './validate-most.ts';
import { WRONG } from './validate-wrong.ts';

// Limits: comments of @slack/types 3.2.0; docs.slack.dev/reference/block-kit and /reference/views.
describe('problemsIn', () => {
  it.each(MOST)('takes %s up to %i and no more', (_what, most, pointer, make) => {
    expect(problemsIn(...make(most))).toEqual([]);
    const [problem, ...rest] = problemsIn(...make(most + 1));
    expect(rest).toEqual([]);
    expect(problem).toMatchObject({ code: 'failed_constraint', pointer, constraint: { expected: most } });
  });

  it.each(WRONG)('refuses %s', (_what, pointer, type, [surface, payload]) => {
    const problems = problemsIn(surface, payload);
    expect(problems.map((one) => [one.pointer, one.constraint.type])).toEqual([[pointer, type]]);
  });

  it('refuses a view above 250 KB', () => {
    const big = (texts: number) => modal(times(texts, () => ({ type: 'section', text: mrkdwn(3000) })));
    expect(problemsIn(...big(80))).toEqual([]);
    const problems = problemsIn(...big(90));
    expect(problems.map((one) => one.constraint)).toEqual([{ type: 'max_bytes', expected: MOST_VIEW_BYTES }]);
    expect(refusal('modal', problems).error).toBe('view_too_large');
  });

  it('names every fault at once, in the shape of the platform', () => {
    const problems = problemsIn(...message({ type: 'header', text: plain(151) }, { type: 'banner' }));
    expect(refusal('message', problems)).toMatchObject({
      ok: false,
      error: 'invalid_blocks',
      errors: [
        {
          code: 'failed_constraint',
          pointer: '/0/text/text',
          constraint: { type: 'max_length', expected: 150 },
        },
        { code: 'failed_constraint', pointer: '/1/type', constraint: { type: 'enum' } },
      ],
      response_metadata: {
        messages: [
          '[ERROR] must be less than 151 characters (has 151) [json-pointer:/0/text/text]',
          '[ERROR] unsupported block type: "banner" [json-pointer:/1/type]',
        ],
      },
    });
  });

  it('takes one of every kind of block where it may stand', () => {
    const rich = {
      type: 'rich_text',
      elements: [{ type: 'rich_text_section', elements: [{ type: 'text', text: 'a' }] }],
    };
    const image = { type: 'image', image_url: 'https://x.test/a.png', alt_text: 'a' };
    const everything: Dict[] = [
      { type: 'section', text: mrkdwn(3), accessory: image },
      { type: 'section', fields: [plain(3)], accessory: button() },
      { type: 'context', elements: [image, plain(1), mrkdwn(1)] },
      actions(button(), { type: 'users_select' }, { type: 'timepicker', initial_time: '06:30' }),
      input({
        type: 'multi_static_select',
        options: options(3),
        initial_options: options(2),
        max_selected_items: 2,
      }),
      input({ type: 'checkboxes', options: [{ ...option(0), text: mrkdwn(5) }] }),
      input({ type: 'number_input', is_decimal_allowed: true, min_value: '0', initial_value: '1.5' }),
      input({ type: 'datetimepicker', initial_date_time: 1_773_036_000 }),
      input(
        { type: 'plain_text_input', multiline: true, initial_value: '' },
        { optional: true, hint: plain(3) },
      ),
      { ...image, title: plain(3) },
      rich,
      { type: 'alert', text: plain(3), level: 'warning' },
    ];
    expect(problemsIn(...modal(everything))).toEqual([]);
    expect(problemsIn(...home(everything))).toEqual([]);
    expect(problemsIn(...message(...everything, { type: 'markdown', text: 'a' }, table(2, 2)))).toEqual([]);
  });
});
