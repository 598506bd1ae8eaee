import { expect, test } from 'vitest';
import { readCard } from './render-check.ts';
import { message, paragraph, render } from './render-helpers.ts';

const shown = (text: string): string => {
  const [part] = render(message([paragraph(text)]));
  if (part === undefined) throw new Error('no part');
  return readCard(part.card).split('\n').at(-1) ?? '';
};

test('an address longer than a phone is wide may break after its marks, a short one and a long word are as they were', () => {
  expect(shown('See yard.invalid/tables/heat_index_of_today')).toBe(
    'See yard.\u200binvalid/\u200btables/\u200bheat_\u200bindex_\u200bof_\u200btoday',
  );
  expect(shown('See yard.invalid/tables')).toBe('See yard.invalid/tables');
  const word = 'Oberflächenvorbereitungsgradbestimmung';
  expect(shown(word)).toBe(word);
});
