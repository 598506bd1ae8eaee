import { describe, expect, test } from 'vitest';
import type { Line } from '../../src/message/message.ts';
import { readParts } from './render-check.ts';
import { button, message, render } from './render-helpers.ts';

describe('typed text', () => {
  test.each([
    '<!channel>',
    '<@U1>',
    '<!here|x>',
    '<https://x.invalid|click>',
    '@channel',
    'a & b < c > d',
    '&lt;!channel&gt;',
  ])('%s mentions nobody, is no link, and reads as typed', (typed) => {
    const given = message(
      [
        { kind: 'heading', text: typed },
        {
          kind: 'paragraph',
          line: [typed, { kind: 'strong', text: typed }, { kind: 'person', id: 'x', name: typed }],
        },
        { kind: 'buttons', buttons: [button(typed)] },
      ],
      { summary: typed, tone: 'plain' },
    );
    for (const part of render(given)) {
      const marked = [
        part.text,
        ...part.blocks.flatMap((block) => (block.type === 'section' && block.text ? [block.text.text] : [])),
      ];
      for (const text of marked) expect(text).not.toMatch(/[<>]/);
    }
  });

  test.each([
    ['~15 bar~ not *this* `rm` _now_', '∼15 bar∼ not ∗this∗ ˋrmˋ ˍnowˍ'],
    ['> 85 %', '＞ 85 %'],
    ['tank_3_north at 07:33:09', 'tank_3_north at 07:33:09'],
    ['say :ok: or 1:100:5', 'say ∶ok∶ or 1∶100∶5'],
    ['two\nlines', 'two lines'],
  ])('%j is not struck out, quoted, coded or made a picture', (typed, shown) => {
    expect(readParts(render(message([{ kind: 'paragraph', line: [typed] }])))).toContain(`\n${shown}`);
  });

  test('a linked person is mentioned once per line, one whose name looks like a mention is not', () => {
    const line = [
      { kind: 'person', id: 'pia', name: 'Pia' },
      ' and ',
      { kind: 'person', id: 'eve', name: '<@U2>' },
    ] as const;
    const [part] = render(message([{ kind: 'paragraph', line }]));
    expect(part?.text.split('\n').at(-1)).toBe('<@U0PIA> and &lt;@U2&gt;');
  });

  test('bold only where the platform reads the marks as marks', () => {
    const strong = { kind: 'strong', text: '225 bar' } as const;
    const shown = (...line: Line) => render(message([{ kind: 'paragraph', line }]))[0]?.blocks[1];
    const text = (markup: string) => ({ text: { text: markup } });
    expect(shown('holds ', strong, '. (', strong, ')')).toMatchObject(text('holds *225 bar*. (*225 bar*)'));
    expect(shown('x', strong, ' y')).toMatchObject(text('x225 bar y'));
    expect(shown('x ', strong, 'y')).toMatchObject(text('x 225 bary'));
    expect(shown('x', { kind: 'strong', text: ' so ' }, 'y')).toMatchObject(text('x *so* y'));
    expect(shown(strong, strong)).toMatchObject(text('225 bar225 bar'));
  });
});
