import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Card } from '../../adapters/teams/render-card.ts';
import { type FormOptions, renderForm } from '../../adapters/teams/render-form.ts';
import { readMetadata } from '../../adapters/teams/render-metadata.ts';
import { readForm } from '../../adapters/teams/render-read.ts';
import { renderFormSteps } from '../../adapters/teams/render-steps.ts';
import { decodeAction } from '../../src/message/action.ts';
import type { Field, Form } from '../../src/message/form.ts';
import { everyField } from '../board/fakes.ts';
import { shownValues } from '../slack/render-form-check.ts';
import { actionsIn, options, readCard } from './render-check.ts';
import { formFaults, inputsOf, lostOnCards, sent } from './render-form-check.ts';

function render(form: Form, more: Partial<FormOptions> = {}): Card {
  const { title, card } = renderForm(form, { ...options, ...more });
  expect(formFaults(card, title)).toEqual([]);
  expect(lostOnCards(form, [card])).toEqual([]);
  return card;
}
const withFields = (...fields: readonly Field[]): Form => ({ ...everyField, fields });
const choices = (values: readonly string[], value: readonly string[] = []): Field => ({
  kind: 'choices',
  name: 'who',
  label: 'Who',
  required: true,
  options: values.map((one, at) => ({ value: one, label: `Name ${at}` })),
  value,
});

describe('a form', () => {
  test('has every field in its order, with unit, hint, what it proposes and whether it is asked for', () => {
    const card = render(everyField);
    expect(inputsOf(card).map((one) => [one.id, one.label, one.type, one.isRequired, one.value])).toEqual([
      ['field:litres', 'Litres, A + B (L)', 'Input.Text', true, undefined],
      ['field:paintC', 'Paint temperature (°C)', 'Input.Text', true, '18'],
      ['field:pot', 'Pot', 'Input.ChoiceSet', true, 'fresh'],
      ['field:coating', 'Coating', 'Input.ChoiceSet', true, undefined],
      ['field:date', 'Day', 'Input.Date', true, '2026-03-09'],
      ['field:mixed', 'Mixed at', 'Input.Time', false, undefined],
      ['field:who', 'Who helped', 'Input.ChoiceSet', false, 'tomas'],
      ['field:place', 'Place', 'Input.Text', false, undefined],
      ['field:note', 'Note', 'Input.Text', false, undefined],
    ]);
    expect(inputsOf(card)).toMatchObject([
      { isMultiline: false, errorMessage: 'Not sent yet. Mend this first: Litres, A + B (L)' },
      {},
      { style: 'expanded', isMultiSelect: false },
      { style: 'compact', isMultiSelect: false },
      {},
      {},
      { style: 'expanded', isMultiSelect: true },
      {},
      { isMultiline: true },
    ]);
    expect(readCard(card)).toMatch(
      /^Log a batch\n! Attention: Stir the base before the hardener goes in\.\nThe mix\nLitres, A \+ B \(L\)\nBefore thinner\.\nPaint/,
    );
    expect(actionsIn(card).map(({ title }) => title)).toEqual(['Log the batch']);
  });

  test('sent untouched gives what it showed; what the platform leaves out is empty', () => {
    expect(readForm(sent(render(everyField)))).toEqual(shownValues(everyField));
  });

  test('gives what was typed, exactly, also what cannot be taken', () => {
    const typed = { litres: ' 12,x & <b> {{', paintC: '', pot: 'on-top', mixed: '07:05', who: 'yusra,tomas' };
    expect(readForm(sent(render(everyField), typed))).toMatchObject({
      ...typed,
      who: ['yusra', 'tomas'],
      note: '',
    });
  });

  test('any texts typed and any option values come back as they were', () => {
    const value = fc.oneof(
      fc.string(),
      fc.constantFrom('', ',', '#0', '#1', 'a,b', ' a', 'constructor', '__proto__'),
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(value, { minLength: 1 }),
        fc.array(fc.nat(30)),
        fc.string(),
        (values, at, text) => {
          const chosen = values.filter((_, index) => at.includes(index));
          const note: Field = {
            kind: 'text',
            name: 'note',
            label: 'N',
            long: true,
            required: false,
            value: text,
          };
          const form = withFields(choices(values, chosen), note);
          expect(readForm(sent(render(form)))).toEqual({ who: chosen, note: text });
        },
      ),
    );
  });

  test('a time or date that is none stays as it was typed, and a number is typed as text', () => {
    const base = { name: 'x', label: 'X', required: true };
    const typed: readonly Field[] = [
      { ...base, kind: 'time', value: '7.5' },
      { ...base, kind: 'time', value: '24:00' },
      { ...base, kind: 'date', value: '2026-02-30' },
      { ...base, kind: 'number', unit: '', step: 1, value: '68 F' },
    ];
    for (const field of typed)
      expect(inputsOf(render(withFields(field)))).toMatchObject([
        { type: 'Input.Text', value: field.kind === 'group' ? '' : field.value },
      ]);
  });

  test('a choice of nothing says so and asks for nothing', () => {
    const card = render(withFields(choices([])));
    expect(inputsOf(card)).toEqual([]);
    expect(readCard(card)).toContain('Who: nothing to choose from');
    expect(readForm(sent(card))).toEqual({});
  });

  test('seldom needed fields are folded away, but not what is required, filled in or to be mended', () => {
    const group: Field = { kind: 'group', name: 'g', label: 'If needed', folded: true };
    const field: Field = { kind: 'text', name: 'a', label: 'A', long: false, required: false };
    const hides = (form: Form, more: Partial<FormOptions> = {}) =>
      actionsIn(render(form, more)).some(({ type }) => type === 'Action.ToggleVisibility');
    expect(hides(withFields(group, field))).toBe(true);
    expect(hides(withFields(group, { ...field, required: true }))).toBe(false);
    expect(hides(withFields(group, { ...field, value: 'x' }))).toBe(false);
    expect(hides(withFields(group, field), { problems: [{ field: 'a', message: 'Mend' }] })).toBe(false);
  });

  test('what to mend is on top with the label of its field, and at the field', () => {
    const problems = [
      { field: 'litres', message: 'Write litres as a number.' },
      { field: 'elsewhere', message: 'The rig is tagged.' },
    ];
    const refusal = { summary: 'Rig 1 is tagged', tone: 'danger', blocks: [] } as const;
    const text = readCard(render(everyField, { problems, refusal }));
    expect(text).toContain(
      'Not taken. Nothing was changed.\n!! Danger: Rig 1 is tagged\n' +
        '! Attention: Not sent yet. Mend this first:\n' +
        '• Litres, A + B: Write litres as a number.\n• The rig is tagged.\n',
    );
    expect(text).toContain('\n! Attention: Write litres as a number.\nLitres, A + B (L)\nBefore thinner.\n');
  });

  test('the way back takes nothing with it and is not held back by what is empty', () => {
    const card = render(everyField, { back: { kind: 'show', page: 'today' } });
    const [send, back] = actionsIn(card);
    expect(send).not.toHaveProperty('associatedInputs');
    expect(back).toMatchObject({
      title: 'Back without sending',
      associatedInputs: 'none',
      fallback: { associatedInputs: 'none' },
    });
    const data = back?.type === 'Action.Execute' ? back.data : {};
    expect(decodeAction(data.action ?? '')).toEqual({ kind: 'show', page: 'today' });
    expect(readForm(data)).toBeNull();
  });
});

describe('what a form carries', () => {
  test('which it is, what it is about, the shift, the draft and the step', () => {
    const card = render(everyField, { draft: 'd-1', shift: 'quay:2026-03-09', step: { at: 1, of: 2 } });
    const { fields, ...rest } = readMetadata(sent(card).form) ?? { fields: [] };
    expect(fields.map(({ name }) => name)).toEqual(Object.keys(shownValues(everyField)));
    expect(rest).toEqual({
      form: 'mix-batch',
      about: { rig: 'rig-1' },
      shift: 'quay:2026-03-09',
      draft: 'd-1',
      step: { at: 1, of: 2 },
    });
    expect(actionsIn(card)[0]?.title).toBe('Next');
    expect(readCard(card)).toContain('Step 1 of 2');
  });

  test.each([undefined, 7, '', 'x', '{}', '{"form":"nothing","about":{},"fields":[]}'])(
    '%j is not one of ours',
    (form) => expect(readForm({ form, 'field:a': 'x' })).toBeNull(),
  );

  test('an answer that is no text is an error, not a lost answer', () => {
    const data = { ...sent(render(everyField)), 'field:note': ['x'] };
    expect(() => readForm(data)).toThrow('The field "note" was answered with a object');
  });
});

describe('a form too long for one card', () => {
  const long = withFields(
    ...Array.from({ length: 8 }, (_, group): readonly Field[] => [
      { kind: 'group', name: `g${group}`, label: `Job ${group}` },
      ...Array.from(
        { length: 3 },
        (_, at): Field => ({
          ...choices(Array.from({ length: 60 }, (_, n) => `person-${n}`)),
          name: `${group}.${at}`,
          label: `Field ${group}.${at}`,
        }),
      ),
    ]).flat(),
  );

  test('is an error that says what to do', () => {
    expect(() => renderForm(long, options)).toThrow(/The form "mix-batch" makes a card of \d+ characters/);
  });

  test('is several; together they ask everything, and the first has all problems', () => {
    const problems = [{ field: '7.2', message: 'Mend' }];
    const steps = renderFormSteps(long, { ...options, problems });
    expect(steps.length).toBeGreaterThan(1);
    for (const { card, title } of steps) expect(formFaults(card, title)).toEqual([]);
    expect(
      lostOnCards(
        long,
        steps.map(({ card }) => card),
      ),
    ).toEqual([]);
    const answers = Object.assign({}, ...steps.map(({ card }) => readForm(sent(card))));
    expect(answers).toEqual(shownValues(long));
    expect(readCard(steps[0]?.card ?? never())).toContain('• Field 7.2: Mend');
    expect(readCard(steps.at(-1)?.card ?? never())).toContain('• Field 7.2: Mend');
    expect(steps.map(({ card }) => actionsIn(card).at(-1)?.title)).toEqual([
      ...steps.slice(1).map(() => 'Next'),
      'Log the batch',
    ]);
  });

  test('a form that fits is one card without a step', () => {
    const [only, ...more] = renderFormSteps(everyField, options);
    expect(more).toEqual([]);
    expect(only?.card).toEqual(render(everyField));
  });
});

function never(): never {
  throw new Error('no card');
}
