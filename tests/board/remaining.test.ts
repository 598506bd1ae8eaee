import { describe, expect, test } from 'vitest';
import { remainingText } from '../../adapters/board/remaining.ts';
import { defaultBoardWords, fill } from '../../adapters/board/words.ts';

const MIN = 60_000;
const say = (ms: number) => remainingText(ms, defaultBoardWords);

describe('what is left', () => {
  test.each([
    [72 * MIN, '1 h 12 min left'],
    [72 * MIN - 1, '1 h 11 min left'],
    [60 * MIN, '1 h 0 min left'],
    [59 * MIN + 59_999, '59 min left'],
    [MIN, '1 min left'],
    [MIN - 1, 'under 1 min left'],
    [1, 'under 1 min left'],
    [0, 'passed just now'],
    [-59_999, 'passed just now'],
    [-MIN, 'passed 1 min ago'],
    [-4 * MIN - 30_000, 'passed 4 min ago'],
    [-90 * MIN, 'passed 1 h 30 min ago'],
    [47 * 60 * MIN, '47 h 0 min left'],
    [75 * 60 * MIN, '3 d 3 h left'],
  ])('%i ms is "%s"', (ms, text) => expect(say(ms)).toBe(text));

  test('works from its source text alone, as the browser gets it', () => {
    const sent = new Function(`return ${remainingText.toString()}`)() as typeof remainingText;
    expect(sent(72 * MIN, defaultBoardWords)).toBe('1 h 12 min left');
    expect(sent(-90 * MIN, defaultBoardWords)).toBe('passed 1 h 30 min ago');
  });
});

test('fill leaves an unknown place visible', () => {
  expect(fill('{a} and {b}', { a: 1 })).toBe('1 and {b}');
});
