import { expect, test } from 'vitest';
import { section, table } from '../../adapters/record/page/markup.ts';

test('what scrolls sideways on a screen can be scrolled with the keyboard (WCAG 2.2, 2.1.1)', () => {
  const page = String(section('bells', 'Bells', table(['a'], [{ cells: ['b'] }], 'none')));
  expect(page).toMatch(/^<section id="bells" tabindex="0" aria-labelledby="bells-title">/);
});
