import fc from 'fast-check';
import { expect, test } from 'vitest';
import { renderMessage } from '../../adapters/teams/render.ts';
import type { Block, Inline, Message } from '../../src/message/message.ts';
import { lostWords, options, partFaults } from './render-check.ts';

const hostile = fc.constantFrom(
  '<at>Pia</at>',
  '< / AT >',
  '{{DATE(2026-03-09T06:40:00Z, SHORT)}}',
  '{{{{',
  '[here](https://x.invalid)',
  '&amp;',
  '> 85 %',
  '# 3',
  '- 5',
  '1. x',
  '---',
  '**bold**',
  ' ~15~ ',
  '`rm`',
  '_now_',
  '\\*',
  '"quoted"',
  'line\nline',
  '\ud800',
  'ł'.repeat(200),
);
const text = fc
  .array(fc.oneof(fc.string({ unit: 'grapheme', maxLength: 40 }), hostile), { maxLength: 4 })
  .map((pieces) => pieces.join(' '));
const longText = fc.oneof(
  { weight: 9, arbitrary: text },
  {
    weight: 1,
    arbitrary: fc
      .tuple(text, fc.integer({ min: 1, max: 90 }))
      .map(([one, n]) => `${one} wet "steel" `.repeat(n)),
  },
);
const tone = fc.constantFrom('plain', 'good', 'attention', 'danger');
const inline: fc.Arbitrary<Inline> = fc.oneof(
  longText,
  longText.map((words) => ({ kind: 'strong' as const, text: words })),
  fc.record({ kind: fc.constant('person'), id: fc.constantFrom('pia', 'eve'), name: text }),
);
const line = fc.array(inline, { maxLength: 5 });
const items = <T>(of: fc.Arbitrary<T>) => fc.array(of, { maxLength: 12 });
const segment = fc.record({
  kind: fc.constantFrom('mix', 'spray'),
  from: fc.constant(0),
  to: fc.constant(60_000),
  name: text,
  clock: fc.constant('07:33–07:43'),
  label: text,
  mark: fc.constant('1'),
});
const action = fc.constantFrom(
  { kind: 'show', page: 'today' } as const,
  { kind: 'open', form: { id: 'mix-batch', about: { rig: 'rig-1' } } } as const,
  { kind: 'do', command: { type: 'start-flush', rig: 'rig-1' } } as const,
  { kind: 'open', form: { id: 'stop-work', about: { why: '"\\'.repeat(450) } } } as const,
);

const { block } = fc.letrec<{ block: Block }>((tie) => ({
  block: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.record({ kind: fc.constant('paragraph'), line }),
    fc.record({ kind: fc.constant('heading'), text: longText }),
    fc.record({ kind: fc.constant('list'), ordered: fc.boolean(), items: items(line) }),
    fc.record({ kind: fc.constant('facts'), facts: items(fc.record({ label: text, value: line })) }),
    fc.record({ kind: fc.constant('note'), tone, line }),
    fc.record({
      kind: fc.constant('countdown'),
      label: text,
      to: fc.nat(),
      clock: fc.constantFrom('09:46', 'Sun 14 Jun 04:00'),
      tone,
    }),
    fc.record({
      kind: fc.constant('checklist'),
      items: items(fc.record({ state: fc.constantFrom('done', 'open', 'next', 'skipped', 'defect'), line })),
    }),
    fc.record({
      kind: fc.constant('timeline'),
      label: text,
      listLabel: text,
      list: fc.constantFrom('here', 'beside'),
      from: fc.constant(0),
      to: fc.constant(3_600_000),
      marks: fc.constant([]),
      lanes: items(fc.record({ label: text, segments: items(segment) })),
    }),
    fc.record({ kind: fc.constant('divider') }),
    fc.record({
      kind: fc.constant('buttons'),
      buttons: fc.array(
        fc.record({ label: text, tone: fc.constantFrom('main', 'plain', 'danger'), action }),
        { maxLength: 30 },
      ),
    }),
    fc.record({ kind: fc.constant('more'), label: text, blocks: fc.array(tie('block'), { maxLength: 6 }) }),
    fc.record({ kind: fc.constant('below'), label: text, blocks: fc.array(tie('block'), { maxLength: 6 }) }),
  ),
}));
const message: fc.Arbitrary<Message> = fc.record({
  summary: longText,
  tone,
  blocks: fc.oneof(
    fc.array(block, { maxLength: 12 }),
    fc.array(block, { minLength: 45, maxLength: 70, size: 'max' }),
  ),
});

test('any message: cards the platform takes, no word lost, nobody mentioned by typing', () => {
  let severalParts = 0;
  fc.assert(
    fc.property(message, (given) => {
      const parts = renderMessage(given, options);
      severalParts += parts.length > 1 ? 1 : 0;
      expect(partFaults(parts)).toEqual([]);
      expect(lostWords(given, parts)).toEqual([]);
    }),
    { numRuns: 150 },
  );
  // Otherwise the splitting would not have been tried.
  expect(severalParts).toBeGreaterThan(5);
});
