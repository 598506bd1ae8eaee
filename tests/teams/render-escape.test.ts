import { fromMarkdown } from 'mdast-util-from-markdown';
import { describe, expect, test } from 'vitest';
import { renderMessage } from '../../adapters/teams/render.ts';
import { markedLine, plainLine } from '../../adapters/teams/render-text.ts';
import type { Block, Line } from '../../src/message/message.ts';
import { elementsIn, markedIn, options, partFaults, readParts, same } from './render-check.ts';

const typed = [
  '*a* **b** _c_ __d__',
  '~~gone~~ ~15 bar~',
  '`rm -rf`',
  '[click](https://x.invalid)',
  '![p](https://x.invalid/p.png)',
  '[a][b] and [b]: https://x.invalid',
  '<b>bold</b> <!-- no --> </p>',
  '<https://x.invalid>',
  '&lt;at&gt; &#60; &amp;',
  '\\*not\\*',
  '# heading',
  '> 85 %',
  '- item',
  '+ item',
  '* item',
  '1. item',
  '12) item',
  '---',
  '- - -',
  '***',
  '===',
  '    four spaces',
  'two\nlines',
  '| a | b |',
  'tank_3_north at 07:33:09, 5 < 6 & 7 > 3, 2 * 3',
];

describe('typed text that is read for marks', () => {
  // The outside check is a CommonMark parser: mdast-util-from-markdown.
  test.each(typed)('%j is one paragraph of nothing but text', (text) => {
    const shown = markedLine(text);
    const [paragraph, ...more] = fromMarkdown(shown).children;
    expect(more).toEqual([]);
    expect(paragraph).toMatchObject({ type: 'paragraph', children: [{ type: 'text', value: shown }] });
    expect(same(shown)).toBe(same(text));
  });

  test('ordinary words stay to the letter', () => {
    const text = 'tank_3_north at 07:33:09, 5 < 6 & 7 > 3, -5 °C, 1.5 bar, (225 bar) "x"';
    expect(markedLine(text)).toBe(text);
  });
});

describe('typed text in a run', () => {
  test('shows to the letter, marks and all', () => {
    for (const text of ['*a* _b_ `c` [d](e) & < >', '> 85 %', '1. x', 'a\\*b']) {
      const [part] = renderMessage({ summary: 'x', tone: 'plain', blocks: [paragraph(text)] }, options);
      expect(part?.card.body.at(-1)).toEqual({ type: 'RichTextBlock', inlines: [text] });
    }
  });

  test('is no mention and no function of the cards', () => {
    for (const text of ['<at>Pia</at>', '</at>', '< at >x', '<AT id="1">', '<at\n>'])
      expect(plainLine(text)).not.toContain('<');
    expect(plainLine('{{DATE(2026-03-09T06:40:00Z)}} {{{')).not.toContain('{{');
    expect(plainLine('5 < at least 6, <a>, {x}')).toContain('<a>, {x}');
  });
});

test('what is typed in two pieces is looked at as one', () => {
  const line = ['<', 'at>Pia</at> {', '{TIME(2026-03-09T06:40:00Z)}}'];
  const [part] = renderMessage({ summary: 'x', tone: 'plain', blocks: [paragraph(...line)] }, options);
  expect(part?.card.body.at(-1)).toEqual({
    type: 'RichTextBlock',
    inlines: ['＜at>Pia＜/at> {\u200b{TIME(2026-03-09T06:40:00Z)}}'],
  });
});

describe('mentions', () => {
  const person = (id: string, name: string) => ({ kind: 'person', id, name }) as const;
  const told = { ...options, person: (id: string, name: string) => ({ id: `29:${id}`, name }) };

  test('who is linked is told, who is not is named, who is typed is neither', () => {
    const line = [person('pia', 'Pia'), ', ', person('eve', '<at>Pia</at>'), ' and <at>Pia</at>'];
    const parts = renderMessage({ summary: 'x', tone: 'plain', blocks: [paragraph(...line)] }, options);
    expect(partFaults(parts)).toEqual([]);
    expect(markedIn(parts[0]?.card ?? never()).at(-1)).toBe(
      '<at>Pia</at>, ＜at>Pia＜/at> and ＜at>Pia＜/at>',
    );
    expect(parts[0]?.card.msteams.entities).toEqual([
      { type: 'mention', text: '<at>Pia</at>', mentioned: { id: '29:pia', name: 'Pia' } },
    ]);
  });

  test('two people of one name are told apart, one person twice is one', () => {
    const line = [person('a', 'Ana'), person('b', 'Ana'), person('a', 'Ana')];
    const [part] = renderMessage({ summary: 'x', tone: 'plain', blocks: [paragraph(...line)] }, told);
    expect(part?.card.msteams.entities?.map(({ text, mentioned }) => [text, mentioned.id])).toEqual([
      ['<at>Ana</at>', '29:a'],
      ['<at>Ana 2</at>', '29:b'],
    ]);
  });

  test('what is typed in two pieces beside a mention does not become one, nor a mark', () => {
    const line = [
      person('pia', 'Pia'),
      ' <',
      { kind: 'strong', text: '' } as const,
      'at>Pia</at> {',
      '{x}}',
      '[a]',
      '(b)',
    ];
    const parts = renderMessage({ summary: 'x', tone: 'plain', blocks: [paragraph(...line)] }, options);
    expect(partFaults(parts)).toEqual([]);
    expect(markedIn(parts[0]?.card ?? never()).at(-1)).toBe(
      '<at>Pia</at> ＜at>Pia＜/at> {\u200b{x}}[a]\u200b(b)',
    );
  });

  test('a fact that mentions somebody is a line, and bold stays where marks are read', () => {
    const facts: Block = {
      kind: 'facts',
      facts: [{ label: 'First aider', value: [person('pia', 'Pia'), ' or *call*'] }],
    };
    const parts = renderMessage({ summary: 'x', tone: 'plain', blocks: [facts] }, options);
    expect(elementsIn(parts[0]?.card.body ?? []).map(({ type }) => type)).not.toContain('FactSet');
    expect(markedIn(parts[0]?.card ?? never()).at(-1)).toBe('**First aider:** <at>Pia</at> or ∗call∗');
  });

  test('a number in front of a line with a mention stays the number that was given', () => {
    const list: Block = {
      kind: 'list',
      ordered: true,
      items: [['a'], [person('pia', 'Pia'), ' opens the valve']],
    };
    const parts = renderMessage({ summary: 'x', tone: 'plain', blocks: [list] }, options);
    expect(readParts(parts).replaceAll('\u200b', '')).toContain('2. Pia opens the valve');
    expect(markedIn(parts[0]?.card ?? never()).at(-1)).toMatch(/^2\u200b\. <at>/);
  });
});

function paragraph(...line: Line): Block {
  return { kind: 'paragraph', line };
}

function never(): never {
  throw new Error('no card');
}
