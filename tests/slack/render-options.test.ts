import { describe, expect, test } from 'vitest';
import { readForm } from '../../adapters/slack/render-read.ts';
import type { Field } from '../../src/message/form.ts';
import { inputsOf, readView, submitted } from './render-form-check.ts';

import { choice, choices, LONG, many, render, withFields } from './render-form-helpers.ts';

describe('options', () => {
  test.each([
    [1, 'radio_buttons'],
    [10, 'radio_buttons'],
    [11, 'static_select'],
    [100, 'static_select'],
    [101, 'static_select'],
    [120, 'static_select'],
  ])('one answer out of %i: %s', (count, type) => {
    const last = `p${count - 1}`;
    const form = withFields(choice(count, last));
    const view = render(form);
    expect(inputsOf(view).map(({ element }) => element.type)).toEqual([type]);
    expect(readForm(submitted(view))).toEqual({ one: last });
  });

  test.each([
    [10, ['checkboxes']],
    [11, ['multi_static_select']],
    [100, ['multi_static_select']],
    [120, ['multi_static_select', 'multi_static_select']],
    [201, ['multi_static_select', 'multi_static_select', 'checkboxes']],
  ])('several answers out of %i: %j, read as one', (count, types) => {
    const chosen = ['p0', `p${count - 1}`];
    const view = render(withFields(choices(count, chosen)));
    expect(inputsOf(view).map(({ element }) => element.type)).toEqual(types);
    expect(readForm(submitted(view))).toEqual({ some: chosen });
    // Nobody can be made to choose from each of several lists.
    expect(inputsOf(view).map(({ optional }) => optional)).toEqual(types.map(() => types.length > 1));
  });

  test('a list in several blocks says which it is, and answers of all are joined', () => {
    const view = render(withFields(choices(120)));
    expect(inputsOf(view).map(({ label }) => label.text)).toEqual(['Who (1 of 2)', 'Who (2 of 2)']);
    const pick = (value: string) => ({ selected_options: [{ value }] });
    expect(readForm(submitted(view, { some: pick('p3'), 'some~1': pick('p110') }))).toEqual({
      some: ['p3', 'p110'],
    });
  });

  test('labels that do not fit are listed whole, under the number on the option', () => {
    const field = { ...choices(0), options: many(60, (at) => `${LONG} ${at}`) } as Field;
    const view = render(withFields(field));
    for (let at = 0; at < 60; at += 1) expect(readView(view)).toContain(`${at + 1}. ${LONG} ${at}`);
    const [element] = inputsOf(view).map((block) => block.element);
    expect(element?.type === 'multi_static_select' && element.options?.[59]?.text.text).toMatch(
      /^60\. Wień.*…$/,
    );
  });

  test('a value the platform cannot take comes back all the same', () => {
    const long = `0|${'c'.repeat(40)}/${'q'.repeat(40)}|3`;
    const field: Field = {
      kind: 'choice',
      name: 'choice',
      label: 'Which?',
      required: true,
      options: ['', long, '#1', 'constructor'].map((value, at) => ({ value, label: `Answer ${at}` })),
    };
    const view = render(withFields(field));
    const [element] = inputsOf(view).map((block) => block.element);
    const sent = element?.type === 'radio_buttons' ? element.options.map(({ value }) => value ?? '') : [];
    const answers = sent.map(
      (value) => readForm(submitted(view, { choice: { selected_option: { value } } })).choice,
    );
    expect(answers).toEqual(['', long, '#1', 'constructor']);
  });

  test('nothing to choose from is said', () => {
    expect(readView(render(withFields(choice(0), choices(0))))).toContain('Who: nothing to choose from');
  });
});
