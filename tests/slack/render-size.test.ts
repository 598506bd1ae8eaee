import { describe, expect, test } from 'vitest';
import type { Block } from '../../src/message/message.ts';
import { readParts } from './render-check.ts';
import { button, message, render } from './render-helpers.ts';

describe('size', () => {
  const name = (at: number) => `${at} ${'Wieńczysława Anastázie '.repeat(7)}`.slice(0, 150).trim();
  const crew = Array.from({ length: 60 }, (_, at) => name(at));

  test('sixty people with the longest names: as many parts as it takes, in order, each says which it is', () => {
    const given = message([
      {
        kind: 'list',
        ordered: true,
        items: crew.map((one) => [
          { kind: 'person', id: 'x', name: one },
          ` has not signed since 06:40, ${'and the foreman asks for it '.repeat(4)}`,
        ]),
      },
      { kind: 'buttons', buttons: [button('Ring again')] },
    ]);
    const parts = render(given);
    expect(parts.length).toBeGreaterThan(1);
    parts.forEach((part, at) => {
      expect(readParts([part])).toContain(`${at + 1} of ${parts.length}`);
      expect(part.text.startsWith(given.summary)).toBe(true);
    });
    const shown = readParts(parts);
    const places = crew.map((_, at) => shown.indexOf(`\n${at + 1}. ${at} Wień`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(parts[0]?.text).toContain('[Ring again]');
    expect(parts[0]?.text).toContain('This is not all.');
  });

  test('a short message of many blocks is one part: neighbouring text is put together', () => {
    const blocks = Array.from(
      { length: 120 },
      (_, at): Block => ({ kind: 'paragraph', line: [`Line ${at}`] }),
    );
    expect(render(message(blocks))).toHaveLength(1);
  });

  test('many headings make several parts; no part ends with a heading or begins with buttons of the one before', () => {
    const blocks = Array.from({ length: 45 }, (_, at): readonly Block[] => [
      { kind: 'heading', text: `Rig ${at}` },
      { kind: 'paragraph', line: ['x'] },
      { kind: 'buttons', buttons: [button(`Go ${at}`)] },
    ]).flat();
    const parts = render(message(blocks));
    expect(parts.length).toBeGreaterThan(2);
    for (const { blocks: own } of parts.slice(0, -1)) {
      expect(own.at(-1)?.type).toBe('context');
      expect(own.at(-2)?.type).not.toBe('header');
    }
    for (const { blocks: own } of parts.slice(1)) expect(own[1]?.type).not.toBe('actions');
  });

  test('one line longer than a section, with bold, mentions and escapes in it, goes on in the next', () => {
    const line = Array.from({ length: 300 }, (_, at) => [
      `word & ${at} `,
      { kind: 'strong', text: '<b>' } as const,
      ' ',
      { kind: 'person', id: 'pia', name: 'Pia' } as const,
    ]).flat();
    const parts = render(message([{ kind: 'paragraph', line }]));
    expect(readParts(parts).match(/<@U0PIA>/g)).toHaveLength(300);
  });

  test('a word longer than a section is broken, a heading longer than a heading is text', () => {
    render(
      message(
        [
          { kind: 'paragraph', line: ['ż'.repeat(5000)] },
          { kind: 'heading', text: 'h'.repeat(151) },
        ],
        { summary: 's '.repeat(2000) },
      ),
    );
  });

  test('where the notification is short of room, what is urgent comes before the steps and the times, and those before the rest', () => {
    const filler = Array.from(
      { length: 80 },
      (_, at): Block => ({ kind: 'paragraph', line: [`${at} ${'background '.repeat(6)}`] }),
    );
    const [part] = render(
      message([
        ...filler,
        {
          kind: 'list',
          ordered: true,
          items: Array.from({ length: 60 }, (_, at) => [
            `Step ${at}, at 0${at % 10}:15 ${'and '.repeat(20)}`,
          ]),
        },
        { kind: 'countdown', label: 'Dead at', to: 0, clock: '10:00', tone: 'danger' },
        {
          kind: 'checklist',
          items: [
            { state: 'done', line: ['Air off'] },
            { state: 'next', line: ['Relieve the pressure'] },
          ],
        },
        { kind: 'paragraph', line: ['Break from 09:30'] },
        { kind: 'buttons', buttons: [button('Start the flush')] },
      ]),
    );
    for (const text of [
      '!! Danger: Dead at: 10:00',
      '[&gt;] Next: Relieve the pressure',
      'Break from 09:30',
      '[Start the flush]',
      '1. Step 0, at 00:15',
    ])
      expect(part?.text).toContain(text);
    expect(part?.text.endsWith('This is not all. Open the message and read the rest.')).toBe(true);
  });

  test('a summary of three thousand characters is whole in the notification as well', () => {
    const summary = Array.from({ length: 300 }, (_, at) => `word-${at}`).join(' ');
    const [part] = render(message([], { summary }));
    for (let at = 0; at < 300; at += 1) expect(part?.text).toContain(`word-${at}`);
  });
});
