import { expect, test } from 'vitest';
import { nearWords, slips } from '../../src/chat/near.ts';

test.each([
  ['temp', 'temp', 0],
  ['temp', 'tmep', 1],
  ['temp', 'tem', 1],
  ['temp', 'tempp', 1],
  ['temp', 'tenp', 1],
  ['', 'go', 2],
  ['go', '', 2],
  ['stop', 'step', 1],
  ['flush', 'batch', 4],
])('%j and %j are %i slips apart', (a, b, count) => {
  expect(slips(a, b)).toBe(count);
  expect(slips(b, a)).toBe(count);
});

test('all that are equally near are named; far ones and novels are not', () => {
  expect(nearWords('stap', ['stop', 'step', 'temp'])).toEqual(['stop', 'step']);
  expect(nearWords('tommorow', ['today', 'temp'])).toEqual([]);
  expect(nearWords('x', ['go'])).toEqual([]);
  expect(nearWords('x'.repeat(31), ['x'.repeat(31)])).toEqual([]);
});
