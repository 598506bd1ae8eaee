import { describe, expect, test } from 'vitest';
import type { Block } from '../../src/message/message.ts';
import { readCard, readParts } from './render-check.ts';
import { button, message, paragraph, render } from './render-helpers.ts';

describe('size', () => {
  test('what one card does not hold goes on in the next; each says which it is and what it belongs to', () => {
    const items = Array.from({ length: 120 }, (_, at) => [
      `Step ${at}: ${'mind the pressure and '.repeat(25)}`,
    ]);
    const given = message([
      { kind: 'list', ordered: true, items },
      { kind: 'buttons', buttons: [button('Ring again')] },
    ]);
    const parts = render(given);
    expect(parts.length).toBeGreaterThan(1);
    parts.forEach((part, at) => {
      const mark = `${at + 1} of ${parts.length}`;
      expect(part.summary).toBe(`!! Danger: ${given.summary} · ${mark}`);
      expect(readCard(part.card)).toContain(mark);
      expect(readCard(part.card)).toContain(given.summary);
    });
    const shown = readParts(parts);
    const places = items.map((_, at) => shown.indexOf(`\n${at + 1}. Step ${at}:`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  test('no part ends with a heading or begins with the buttons of the one before', () => {
    const blocks = Array.from({ length: 150 }, (_, at): readonly Block[] => [
      { kind: 'heading', text: `Rig ${at}` },
      paragraph('mind the pressure '.repeat(at % 9)),
      { kind: 'buttons', buttons: [button(`Go ${at}`)] },
    ]).flat();
    const parts = render(message(blocks));
    expect(parts.length).toBeGreaterThan(2);
    // The last element names the part, and so does the first of a later one.
    for (const { card } of parts.slice(0, -1))
      expect(card.body.at(-2)).not.toMatchObject({ style: 'heading' });
    for (const { card } of parts.slice(1)) expect(card.body[1]?.type).not.toBe('ActionSet');
  });

  test('a word longer than a line is broken, a summary too long for a title goes on line by line', () => {
    render(message([paragraph('ż'.repeat(50_000))], { summary: 's "'.repeat(3000) }));
  });
});
