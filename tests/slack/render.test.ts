import { describe, expect, test } from 'vitest';
import { renderMessage, renderPage } from '../../adapters/slack/render.ts';
import { decodeAction, encodeAction } from '../../src/message/action.ts';
import type { Block } from '../../src/message/message.ts';
import { options, readBlock, readParts } from './render-check.ts';
import { button, lines, message, render } from './render-helpers.ts';

const MIN = 60_000;

describe('each kind of block', () => {
  test('the tone leads in a mark and a word; a first block that repeats the summary is not said twice', () => {
    const [part] = render(message([{ kind: 'heading', text: 'Rig 1: start the flush by 09:46' }]));
    expect(part?.blocks.map(readBlock)).toEqual(['!! Danger: Rig 1: start the flush by 09:46']);
    expect(part?.text).toBe('Rig 1: start the flush by 09:46\n!! Danger');
    expect(part?.thread).toBe(false);
  });

  test('a first line that repeats the summary with a mention in it stays: the mention must ring', () => {
    const given = message([{ kind: 'paragraph', line: [{ kind: 'person', id: 'pia', name: 'Pia' }] }], {
      summary: 'Pia',
    });
    expect(readParts(render(given))).toContain('<@U0PIA>');
  });

  test('a plain message has no tone word', () => {
    const [part] = render(message([], { tone: 'plain' }));
    expect(part?.blocks.map(readBlock)).toEqual(['Rig 1: start the flush by 09:46']);
  });

  test('lists count, facts have their labels in bold, a note says its tone', () => {
    const given: readonly Block[] = [
      { kind: 'list', ordered: true, items: [['Lock the trigger.'], ['Relieve the pressure.']] },
      { kind: 'list', ordered: false, items: [['Pail']] },
      { kind: 'facts', facts: [{ label: 'Batch', value: ['B-03, ', { kind: 'strong', text: '20 L' }] }] },
      { kind: 'note', tone: 'attention', line: ['Wind is up.'] },
      { kind: 'note', tone: 'good', line: ['Signed.'] },
    ];
    expect(lines(given).slice(1)).toEqual([
      '1. Lock the trigger.',
      '2. Relieve the pressure.',
      '• Pail',
      'Batch: B-03, 20 L',
      '! Attention: Wind is up.',
      'Noted: Signed.',
    ]);
    expect(JSON.stringify(render(message(given)))).toContain('*Batch:* B-03, *20 L*');
  });

  test('a checklist says each state in a word', () => {
    const states = ['done', 'open', 'next', 'skipped', 'defect'] as const;
    const items = states.map((state) => ({ state, line: ['Tip off'] }));
    expect(lines([{ kind: 'checklist', items }]).slice(1)).toEqual([
      '[x] Done: Tip off',
      '[ ] Open: Tip off',
      '[>] Next: Tip off',
      '[-] Skipped: Tip off',
      '[!] Defect: Tip off',
    ]);
  });

  test('a countdown prints the wall clock, also beside a date mark in the zone of the reader', () => {
    const given = message([
      { kind: 'countdown', label: 'Dead at', to: 36_000_000, clock: '10:00', tone: 'attention' },
    ]);
    expect(readParts(render(given))).toContain('! Attention: Dead at: 10:00');
    const mark = '<!date^36000^{time}|10:00>';
    expect(readParts(render(given, { when: () => mark }))).toContain(`Dead at: 10:00 (${mark})`);
    expect(readParts(render(given, { when: () => 'in 5 min' }))).toContain('Dead at: 10:00 (in 5 min)');
    expect(readParts(render(given, { when: () => '' }))).toContain('Dead at: 10:00');
    expect(readParts(render(given, { when: (_, clock) => `${clock} <!channel>` }))).toContain(
      '10:00 <!channel>',
    );
  });

  test('a timeline is a list, lane by lane', () => {
    const segment = {
      kind: 'mix',
      from: 0,
      to: 10 * MIN,
      name: 'mix',
      clock: '07:33–07:43',
      label: 'batch 1',
      mark: '1',
    } as const;
    const lanes = [{ label: 'Rig 1', segments: [segment, { ...segment, label: '' }] }];
    expect(
      lines([
        {
          kind: 'timeline',
          label: 'Plan',
          listLabel: 'As a list',
          list: 'here',
          from: 0,
          to: 60 * MIN,
          marks: [],
          lanes,
        },
      ]).slice(1),
    ).toEqual(['Plan', 'As a list', 'Rig 1', '• 07:33–07:43 mix: batch 1', '• 07:33–07:43 mix']);
    // Words beside it say the same: once is enough.
    expect(
      lines([
        {
          kind: 'timeline',
          label: 'Plan',
          listLabel: 'As a list',
          list: 'beside',
          from: 0,
          to: 60 * MIN,
          marks: [],
          lanes,
        },
        { kind: 'paragraph', line: ['1. Mix 07:33'] },
      ]).slice(1),
    ).toEqual(['1. Mix 07:33']);
  });

  test('the whole of what is said in short stands under it in the thread, or on the same page', () => {
    const given = message([
      { kind: 'paragraph', line: ['In short.'] },
      { kind: 'below', label: 'The whole', blocks: [{ kind: 'paragraph', line: ['At length.'] }] },
      { kind: 'buttons', buttons: [button('Go')] },
    ]);
    const [first, under, ...rest] = render(given, { more: 'button' });
    expect(rest).toEqual([]);
    expect(first && readParts([first]).split('\n').slice(1)).toEqual([
      'In short.',
      'The whole (in the thread of this message)',
      'Go',
    ]);
    expect(under?.thread).toBe(true);
    expect(under && readParts([under]).split('\n')).toEqual(['The whole', 'At length.']);
    expect(lines(given.blocks).slice(1)).toEqual(['In short.', 'The whole', 'At length.', 'Go']);
  });

  test('a page says nothing of parts, however long it is', () => {
    const paragraphs = Array.from(
      { length: 90 },
      (_, at): Block => ({ kind: 'paragraph', line: [`Line ${at}`] }),
    );
    expect(render(message(paragraphs)).length).toBe(1);
    const headings = paragraphs.map((_, at): Block => ({ kind: 'heading', text: `Heading ${at}` }));
    expect(render(message(headings)).length).toBeGreaterThan(1);
    const blocks = renderPage(message(headings), options);
    expect(blocks.length).toBe(91);
    expect(new Set(blocks.map(({ block_id }) => block_id)).size).toBe(91);
    expect(JSON.stringify(blocks)).not.toMatch(/\d of \d/);
  });

  test('folded detail stands in place, or in the thread with a line that leads there', () => {
    const given = message([
      {
        kind: 'more',
        label: 'Why',
        blocks: [
          { kind: 'paragraph', line: ['Hot steel.'] },
          { kind: 'more', label: 'Sources', blocks: [{ kind: 'buttons', buttons: [button('Go')] }] },
        ],
      },
      { kind: 'buttons', buttons: [button('Start')] },
    ]);
    expect(lines(given.blocks).slice(1)).toEqual(['Why:', 'Hot steel.', 'Sources:', 'Go', 'Start']);
    const [main, thread, ...none] = render(given, { more: 'button' });
    expect(none).toEqual([]);
    expect(main?.blocks.map(readBlock).slice(1)).toEqual(['Why (in the thread of this message)', 'Start']);
    expect(main?.text).not.toContain('Hot steel');
    expect(thread?.thread).toBe(true);
    expect(thread?.blocks.map(readBlock)).toEqual(['Why', 'Hot steel.', 'Sources:', 'Go']);
    expect(thread?.text).toBe('Rig 1: start the flush by 09:46\n!! Danger\nWhy\nHot steel.\nSources:\n[Go]');
  });

  test('several folded details share one part for the thread, told apart by a number at both places and by what they stood under', () => {
    const more = (text: string): Block => ({
      kind: 'more',
      label: 'More on this',
      blocks: [{ kind: 'paragraph', line: [text] }],
    });
    const given = message([
      { kind: 'heading', text: 'Fire' },
      more('Pails'),
      { kind: 'heading', text: 'Earth' },
      more('Leads'),
    ]);
    const [main, thread, ...none] = render(given, { more: 'button' });
    expect(none).toEqual([]);
    const where = '(in the thread of this message)';
    expect(main?.blocks.map(readBlock).slice(1)).toEqual([
      'Fire',
      `[1] More on this ${where}`,
      'Earth',
      `[2] More on this ${where}`,
    ]);
    expect(thread?.blocks.map(readBlock)).toEqual([
      '[1] More on this: Fire',
      'Pails',
      '[2] More on this: Earth',
      'Leads',
    ]);
  });

  test('buttons carry their action, tone and an id of their own, five in a row', () => {
    const labels = Array.from({ length: 40 }, (_, at) => `Step ${at}`);
    const [part] = render(
      message([
        {
          kind: 'buttons',
          buttons: labels.map((label, at) =>
            button(label, at === 0 ? 'main' : at === 1 ? 'danger' : 'plain'),
          ),
        },
      ]),
    );
    const rows = part?.blocks.flatMap((block) => (block.type === 'actions' ? [block.elements] : [])) ?? [];
    expect(rows.map((row) => row.length)).toEqual([5, 5, 5, 5, 5, 5, 5, 5]);
    const [first, second, third] = rows.flat().flatMap((one) => (one.type === 'button' ? [one] : []));
    expect([first?.style, second?.style, third?.style]).toEqual(['primary', 'danger', undefined]);
    expect(decodeAction(first?.value ?? '')).toEqual(button('').action);
    expect(
      rows
        .flat()
        .map(({ action_id }) => action_id)
        .slice(0, 2),
    ).toEqual(['do:0', 'do:1']);
  });

  test('a label that does not fit stands whole above its button, under the same number', () => {
    const long = `Confirm that ${'the pressure is off and '.repeat(4)}`.trim();
    const [part] = render(
      message([{ kind: 'buttons', buttons: [button('Go'), button(`${long} A`), button(`${long} B`)] }]),
    );
    const [, whole, row] = part?.blocks.map(readBlock) ?? [];
    expect(whole).toBe(`2. ${long} A\n3. ${long} B`);
    expect(row).toMatch(/^Go\n2\. Confirm .*…\n3\. Confirm .*…$/);
  });

  test('an action too long for the platform is an error that names the button', () => {
    const action = { kind: 'do', command: { type: 'raise-concern', text: 'x'.repeat(2001) } } as const;
    const length = encodeAction(action).length;
    expect(() =>
      renderMessage(
        message([{ kind: 'buttons', buttons: [{ label: 'Raise it', tone: 'main', action }] }]),
        options,
      ),
    ).toThrow(
      `The button "Raise it" (do) carries ${length} characters; the chat platform takes at most 2000.`,
    );
  });
});

describe('ids', () => {
  test('block ids differ for each revision and repeat for the same one', () => {
    const ids = (revision: string) =>
      render(message([{ kind: 'divider' }]), { revision }).flatMap(({ blocks }) =>
        blocks.map(({ block_id }) => block_id),
      );
    expect(ids('a')).toEqual(ids('a'));
    expect(ids('a').filter((id) => ids('b').includes(id))).toEqual([]);
  });

  test.each(['', 'r'.repeat(250)])('a revision that makes no usable block id is an error', (revision) => {
    expect(() => renderMessage(message([]), { ...options, revision })).toThrow(
      'The revision of a message must have 1 to 235 characters',
    );
  });

  test('a message of nothing still is one', () => {
    expect(readParts(render(message([], { summary: '', tone: 'plain' })))).toBe('–');
  });
});
