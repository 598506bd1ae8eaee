import { describe, expect, test } from 'vitest';
import { renderForm } from '../../adapters/slack/render-form.ts';
import { readMetadata } from '../../adapters/slack/render-metadata.ts';
import { readForm } from '../../adapters/slack/render-read.ts';
import type { Field } from '../../src/message/form.ts';
import { everyField } from '../board/fakes.ts';
import { blocksOf, inputsOf, readView, shownValues, submitted } from './render-form-check.ts';

import { choice, elementsOf, LONG, options, render, withFields } from './render-form-helpers.ts';

describe('a form', () => {
  test('has every field in its order, with unit, hint and what it proposes', () => {
    const view = render(everyField);
    expect(
      inputsOf(view).map(({ block_id, label, element, optional }) => [
        block_id,
        label.text,
        element.type,
        optional,
      ]),
    ).toEqual([
      ['litres', 'Litres, A + B (L)', 'plain_text_input', false],
      ['paintC', 'Paint temperature (°C)', 'plain_text_input', false],
      ['pot', 'Pot', 'radio_buttons', false],
      ['coating', 'Coating', 'static_select', false],
      ['date', 'Day', 'datepicker', false],
      ['mixed', 'Mixed at', 'timepicker', true],
      ['who', 'Who helped', 'checkboxes', true],
      ['place', 'Place', 'plain_text_input', true],
      ['note', 'Note', 'plain_text_input', true],
    ]);
    expect(readView(view)).toMatch(
      /^! Attention: Stir the base before the hardener goes in\.\nThe mix\nLitres/,
    );
    expect(inputsOf(view)[0]?.hint?.text).toBe('Before thinner.');
    expect(view.title.text).toBe('Log a batch');
    expect(view.submit?.text).toBe('Log the batch');
    expect(view.callback_id).toBe('form:mix-batch');
  });

  test('sent untouched gives what it showed', () => {
    expect(readForm(submitted(render(everyField)))).toEqual(shownValues(everyField));
  });

  test('gives what was typed, exactly, also what cannot be taken', () => {
    const answers = readForm(
      submitted(render(everyField), {
        litres: { value: ' 12,x & <b>' },
        paintC: { value: null },
        pot: { selected_option: { value: 'on-top' } },
        mixed: { selected_time: '07:05' },
        who: { selected_options: [] },
      }),
    );
    expect(answers).toMatchObject({
      litres: ' 12,x & <b>',
      paintC: '',
      pot: 'on-top',
      mixed: '07:05',
      who: [],
      note: '',
    });
  });

  test('an element that no form has is an error, not a lost answer', () => {
    const view = submitted(render(everyField), { note: { type: 'file_input' } });
    expect(() => readForm(view)).toThrow(
      'The field "note" was answered with an element of the kind "file_input"',
    );
  });

  test('a title or a button that does not fit is said whole on the sheet', () => {
    const view = render({ ...everyField, title: `Ask ${LONG}`, submit: 'Post the day for everybody now' });
    expect(view.title.text).toMatch(/^Ask Wieńczysława…$/);
    expect(readView(view).startsWith(`Ask ${LONG}\n`)).toBe(true);
    expect(view.submit?.text).toBe('Post the day for…');
    expect(readView(view)).toContain('The button below: Post the day for everybody now');
  });

  test('a time or date that is none stays as it was typed', () => {
    const time = (value: string): Field => ({ kind: 'time', name: 't', label: 'At', required: true, value });
    const date = (value: string): Field => ({ kind: 'date', name: 'd', label: 'Day', required: true, value });
    for (const field of [
      time('7.5'),
      time('24:00'),
      time('2026-03-09 16:30'),
      date('9 March'),
      date('2026-02-30'),
    ])
      expect(elementsOf(field)).toMatchObject([
        { type: 'plain_text_input', initial_value: field.kind === 'group' ? '' : field.value },
      ]);
    expect(elementsOf(time('06:40'), date('2026-03-09'))).toMatchObject([
      { initial_time: '06:40' },
      { initial_date: '2026-03-09' },
    ]);
  });

  test('a number is typed as text: gloves, commas and units', () => {
    const number: Field = {
      kind: 'number',
      name: 'n',
      label: 'Air',
      unit: '',
      step: 1,
      required: true,
      value: '68 F',
    };
    expect(elementsOf(number)).toMatchObject([{ type: 'plain_text_input', initial_value: '68 F' }]);
    expect(inputsOf(render(withFields(number)))[0]?.label.text).toBe('Air');
  });

  test('a field that holds more than the platform takes is an error that names it', () => {
    const field: Field = {
      kind: 'text',
      name: 'notes',
      label: 'Notes',
      required: false,
      long: true,
      value: 'x'.repeat(3001),
    };
    expect(() => renderForm(withFields(field), options)).toThrow(
      'The field "Notes" (notes) holds 3001 characters',
    );
  });

  test('labels and hints that do not fit are said whole before the input', () => {
    const view = render(
      withFields({
        kind: 'text',
        name: 'a',
        label: 'l '.repeat(1200),
        hint: 'h '.repeat(1200),
        required: true,
        long: false,
      }),
    );
    expect(readView(view)).toContain('l '.repeat(1200).trim());
    expect(readView(view)).toContain('h '.repeat(1200).trim());
  });

  test('typed marks on the sheet mention nobody', () => {
    const bad = '<!channel> <@U1>';
    const view = render({
      ...everyField,
      intro: [{ kind: 'paragraph', line: [bad, { kind: 'person', id: 'x', name: bad }] }],
      fields: [
        { kind: 'group', name: 'g', label: `${bad} ${LONG}` },
        { ...choice(2), label: bad },
      ],
    });
    const marked = blocksOf(view).flatMap((block) =>
      block.type === 'section' && block.text?.type === 'mrkdwn' ? [block.text.text] : [],
    );
    expect(marked.length).toBe(2);
    for (const text of marked) expect(text).not.toMatch(/[<>]/);
  });
});

describe('what a modal carries', () => {
  test('the form, what it is about, the draft and the step', () => {
    const view = render(everyField, { draft: 'd-1', step: { at: 1, of: 2 } });
    expect(readMetadata(view.private_metadata ?? '')).toEqual({
      form: 'mix-batch',
      about: { rig: 'rig-1' },
      draft: 'd-1',
      step: { at: 1, of: 2 },
    });
    expect(view.submit?.text).toBe('Next');
    expect(readView(view)).toContain('Step 1 of 2');
  });

  test('too much of it is an error that names the form', () => {
    const form = { ...everyField, about: { rig: 'r'.repeat(3000) } };
    expect(() => renderForm(form, options)).toThrow(
      /The form "mix-batch" carries 30\d\d characters about itself/,
    );
  });

  test.each([
    '',
    'x',
    '{}',
    '{"form":"nothing","about":{}}',
    '{"form":"arrive","about":{"a":1}}',
    '{"form":"arrive","about":{},"more":1}',
  ])('%j is not one of ours', (text) => {
    expect(readMetadata(text)).toBeNull();
  });
});
