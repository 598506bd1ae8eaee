import { describe, expect, test } from 'vitest';
import { problemsElsewhere, renderProblems } from '../../adapters/slack/render-problems.ts';
import { everyField, refused } from '../board/fakes.ts';
import { inputsOf, readView } from './render-form-check.ts';

import { choices, render, withFields } from './render-form-helpers.ts';

describe('problems', () => {
  const problems = [
    { field: 'litres', message: 'Write a number.' },
    { field: 'litres', message: 'At most 1000.' },
    { field: 'some', message: 'Choose somebody.' },
    { field: 'gone', message: 'The day has ended.' },
    { field: 'g1', message: 'Too many jobs.' },
  ];
  const form = { ...everyField, fields: [...everyField.fields, choices(120)] };

  test('are shown at the first block of their field; the platform would refuse any other block', () => {
    expect(renderProblems(problems, form)).toEqual({
      litres: 'Write a number. At most 1000.',
      some: 'Choose somebody.',
    });
    const ids = inputsOf(render(form)).map(({ block_id }) => block_id);
    expect(ids).toEqual(expect.arrayContaining(Object.keys(renderProblems(problems, form))));
  });

  test('without an input here are known as such, and all are shown on top with their labels', () => {
    expect(problemsElsewhere(problems, form).map(({ field }) => field)).toEqual(['gone', 'g1']);
    const text = readView(render(form, { problems }));
    expect(text).toMatch(/^! Attention: Not sent yet\. Mend this first:\n• Litres, A \+ B: Write a number\./);
    expect(text).toContain('• The day has ended.\n• The mix: Too many jobs.');
  });

  test('a field with nothing to choose from has no input to show one at', () => {
    const empty = withFields(choices(0));
    expect(renderProblems(problems, empty)).toEqual({});
    expect(problemsElsewhere(problems, empty)).toHaveLength(5);
  });

  test('a refusal stands on top', () => {
    const text = readView(render(everyField, { refusal: refused('Rig 1 is tagged out.') }));
    expect(text).toMatch(
      /^Not taken\. Nothing was changed\.\n(! Attention|!! Danger): Rig 1 is tagged out\./,
    );
  });
});
