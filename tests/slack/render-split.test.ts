import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutText, shortened, splitText } from '../../adapters/slack/split.ts';
import { packLines } from '../../src/chat/pack.ts';

const whole = /^(?:<@U[A-Z0-9]+>|&(?:amp|lt|gt);|[^<>&])*$/u;
const marked = fc
  .array(fc.constantFrom('&amp;', '&lt;', '<@U0PIA>', 'pressure', 'ż', '𝡴', ' ', '  '), { maxLength: 80 })
  .map((pieces) => pieces.join(''));
const loneSurrogate = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

describe('splitting', () => {
  test('breaks between words and loses nothing', () => {
    expect(splitText('Lock the trigger. Relieve it.', 12)).toEqual(['Lock the', 'trigger.', 'Relieve it.']);
    expect(splitText('short', 12)).toEqual(['short']);
  });

  test('never breaks a mention, an escaped character or a surrogate pair, however long the word', () => {
    fc.assert(
      fc.property(marked, fc.integer({ min: 9, max: 40 }), (text, most) => {
        const pieces = splitText(text, most);
        expect(pieces.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
        for (const piece of pieces) {
          expect(piece.length).toBeLessThanOrEqual(Math.max(most, text.length <= most ? text.length : 0));
          expect(piece).toMatch(whole);
          expect(piece).not.toMatch(loneSurrogate);
        }
      }),
    );
    expect(splitText('𝡴'.repeat(10), 9)).toEqual(['𝡴'.repeat(4), '𝡴'.repeat(4), '𝡴𝡴']);
  });
});

describe('cutting', () => {
  test('says that it cut, after a word where one ends late enough', () => {
    expect(cutText('Relieve the pressure first', 20)).toBe('Relieve the…');
    expect(cutText('Druckentlastungsventil prüfen', 20)).toBe('Druckentlastungsven…');
    expect(cutText('exactly as long', 15)).toBe('exactly as long');
  });

  test('never breaks a mention, an escaped character or a surrogate pair', () => {
    fc.assert(
      fc.property(marked, fc.integer({ min: 9, max: 40 }), (text, most) => {
        const cut = cutText(text, most);
        expect(cut.length).toBeLessThanOrEqual(most);
        expect(cut).toMatch(whole);
        expect(cut).not.toMatch(loneSurrogate);
        expect(text.startsWith(cut === text ? text : cut.slice(0, -1))).toBe(true);
      }),
    );
  });
});

test('labels alike in what fits keep apart, and blank ones are seen', () => {
  const long = 'Confirm that the gun is off';
  expect(shortened([`${long} A`, 'Go', ' ', `${long} B`], 20)).toEqual({
    short: ['1. Confirm that the…', 'Go', '–', '4. Confirm that the…'],
    whole: [`1. ${long} A`, `4. ${long} B`],
  });
});

test('lines are packed up to the limit, line ends counted', () => {
  const line = (text: string) => ({ text });
  const packs = packLines(['aaaa', 'bbbb', 'c', 'dddddddddd'].map(line), 9);
  expect(packs.map((pack) => pack.map(({ text }) => text))).toEqual([
    ['aaaa', 'bbbb'],
    ['c'],
    ['dddddddddd'],
  ]);
});
