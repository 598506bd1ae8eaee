import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutText, shortened, tokensOf } from '../../src/chat/cut.ts';
import { cutIntoParts, packed } from '../../src/chat/pack.ts';

describe('cutting text without markup', () => {
  it('reads "<" and "&" as any other character', () => {
    expect(cutText('tip <0.017 in> first', 12)).toBe('tip <0.017…');
    expect(tokensOf('a <b> &amp;', 20)).toEqual(['a', ' ', '<b>', ' ', '&amp;']);
    expect(shortened(['Relieve it', 'Relieve the line'], 10)).toEqual({
      short: ['Relieve it', '2. Reliev…'],
      whole: ['2. Relieve the line'],
    });
  });
});

describe('packing', () => {
  it('keeps every item in its order, within count and size', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ maxLength: 12 }), { maxLength: 30 }),
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 4, max: 60 }),
        (items, count, size) => {
          const packs = packed(items, count, size);
          expect(packs.flat()).toEqual(items);
          for (const pack of packs) {
            expect(pack.length).toBeLessThanOrEqual(count);
            const used = pack.reduce((sum, item) => sum + JSON.stringify(item).length + 1, 0);
            expect(pack.length === 1 || used <= size).toBe(true);
          }
        },
      ),
    );
  });

  it('into messages loses nothing, and breaks between two that belong together only where nothing else is before', () => {
    const together = (before: string | undefined) => before === 'heading';
    const room = { count: 3, size: 100, sizeOf: (piece: string) => piece.length, together };
    expect(cutIntoParts(['a', 'b', 'heading', 'c', 'd'], room)).toEqual([
      ['a', 'b'],
      ['heading', 'c', 'd'],
    ]);
    expect(cutIntoParts(['heading', 'heading', 'heading', 'c'], room)).toEqual([
      ['heading', 'heading', 'heading'],
      ['c'],
    ]);
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'heading', 'long piece'), { maxLength: 30 }), (pieces) => {
        const parts = cutIntoParts(pieces, { ...room, size: 20 });
        expect(parts.flat()).toEqual(pieces);
        for (const part of parts)
          expect(part.length === 1 || (part.length <= 3 && part.join('').length <= 20)).toBe(true);
      }),
    );
  });
});
