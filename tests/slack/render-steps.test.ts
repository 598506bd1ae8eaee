import { describe, expect, test } from 'vitest';
import { renderForm } from '../../adapters/slack/render-form.ts';
import { formSteps, renderFormSteps } from '../../adapters/slack/render-steps.ts';
import type { Field, Form } from '../../src/message/form.ts';
import { everyField, refused } from '../board/fakes.ts';
import { readBlock } from './render-check.ts';
import { blocksOf, inputsOf, readView, viewFaults } from './render-form-check.ts';

import { choices, LONG, many, options, withFields } from './render-form-helpers.ts';

describe('steps', () => {
  const text = (name: string, value?: string): Field => ({
    kind: 'text',
    name,
    label: name,
    required: false,
    long: false,
    ...(value === undefined ? {} : { value }),
  });
  const group = (name: string, label: string, folded = false): Field => ({
    kind: 'group',
    name,
    label,
    folded,
  });
  const day = (loss?: string): Form =>
    withFields(
      text('start'),
      group('jobs.0', 'Job 1'),
      text('area'),
      group('jobs.0.more', 'If needed', true),
      text('loss', loss),
      group('rest', 'The rest'),
      text('notes'),
    );
  const names = (forms: readonly Form[]) => forms.map(({ fields }) => fields.map(({ name }) => name));

  test('a form that fits is one', () => {
    expect(formSteps(everyField, options)).toEqual([everyField]);
    expect(renderFormSteps(everyField, options)).toEqual([renderForm(everyField, options)]);
  });

  test('folded groups come later, under what they belong to, with everything else in its place', () => {
    const forms = formSteps(day(), options);
    expect(names(forms)).toEqual([
      ['start', 'jobs.0', 'area', 'rest', 'notes'],
      ['jobs.0.more', 'loss'],
    ]);
    const [first, second] = renderFormSteps(day(), { ...options, draft: 'd-1' });
    expect(first?.view.submit?.text).toBe('Next');
    expect(second?.view.submit?.text).toBe('Log the batch');
    expect(second && blocksOf(second.view).map(readBlock)).toEqual(['Step 2 of 2', 'Job 1: If needed', '']);
  });

  test('but not while something is filled in there or is to be mended', () => {
    expect(names(formSteps(day('40'), options))).toHaveLength(1);
    const problems = [{ field: 'loss', message: 'At most 80.' }];
    expect(names(formSteps(day(), { ...options, problems }))).toHaveLength(1);
  });

  test('a form of three hundred fields is cut between groups, each field once, in order', () => {
    const fields = Array.from({ length: 25 }, (_, at) => [
      group(`g${at}`, `Job ${at}`),
      ...Array.from({ length: 11 }, (__, i) => text(`f${at}.${i}`)),
    ]).flat();
    const views = renderFormSteps(withFields(...fields), options).map(({ view }) => view);
    for (const view of views) expect(viewFaults(view)).toEqual([]);
    expect(views.length).toBe(13);
    expect(views.flatMap((view) => inputsOf(view).map(({ block_id }) => block_id))).toEqual(
      fields.filter(({ kind }) => kind !== 'group').map(({ name }) => name),
    );
    expect(views.filter((view) => readView(view).includes('Stir the base'))).toHaveLength(1);
    expect(views.slice(1).every((view) => blocksOf(view)[1]?.type === 'header')).toBe(true);
  });

  test('one group too long for any sheet is cut inside, and so is one of too many bytes', () => {
    const fields = Array.from({ length: 150 }, (_, at) => text(`f${at}`));
    expect(names(formSteps(withFields(...fields), options)).flat()).toEqual(fields.map(({ name }) => name));
    const lists = Array.from(
      { length: 30 },
      (_, at): Field =>
        ({ ...choices(0), name: `c${at}`, options: many(100, (i) => `${LONG.slice(0, 60)} ${i}`) }) as Field,
    );
    const views = renderFormSteps(withFields(...lists), options).map(({ view }) => view);
    expect(views.length).toBeGreaterThan(1);
    for (const view of views) expect(viewFaults(view)).toEqual([]);
    expect(views.flatMap((view) => inputsOf(view))).toHaveLength(30);
  });

  test('problems stand on their sheet, and on the first all of them with their labels', () => {
    const fields = Array.from({ length: 150 }, (_, at) => text(`f${at}`));
    const problems = [
      { field: 'f149', message: 'Too long.' },
      { field: 'gone', message: 'The day has ended.' },
    ];
    const views = renderFormSteps(withFields(...fields), {
      ...options,
      problems,
      refusal: refused('No.'),
    }).map(({ view }) => readView(view));
    expect(views[0]).toContain('• f149: Too long.\n• The day has ended.');
    expect(views.at(-1)).toContain('• f149: Too long.');
    expect(views.at(-1)).not.toContain('The day has ended.');
    expect(views.filter((one) => one.includes('Not taken.'))).toHaveLength(1);
  });

  test('a sheet that would not fit is an error that says to take steps', () => {
    const fields = Array.from({ length: 150 }, (_, at) => text(`f${at}`));
    expect(() => renderForm(withFields(...fields), options)).toThrow(
      /The form "mix-batch" makes 151 blocks .* Show it in steps\./,
    );
  });
});
