import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inductionMinutes } from '../../src/trade/induction.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { anyPaintC, anySheet } from './sheets.ts';

const table = [
  { c: 20, minutes: 15 },
  { c: 10, minutes: 30 },
];

test.each([
  { c: 9, minutes: 30, belowTable: true },
  { c: 10, minutes: 30, belowTable: false },
  { c: 12, minutes: 27, belowTable: false },
  { c: 20, minutes: 15, belowTable: false },
  { c: 35, minutes: 15, belowTable: false },
])('$c °C: $minutes min', ({ c, minutes, belowTable }) => {
  expect(inductionMinutes(table, c)).toEqual({ minutes, belowTable });
});

test('one line holds at every temperature, flagged only when colder', () => {
  const one = [{ c: 15, minutes: 20 }];
  expect(inductionMinutes(one, 5)).toEqual({ minutes: 20, belowTable: true });
  expect(inductionMinutes(one, 25)).toEqual({ minutes: 20, belowTable: false });
});

test('colder never shortens the wait, and it stays within the table', () => {
  fc.assert(
    fc.property(anySheet, anyPaintC, anyPaintC, (sheet, x, y) => {
      const [colder, warmer] = x <= y ? [x, y] : [y, x];
      const wait = inductionMinutes(sheet, colder).minutes;
      expect(wait).toBeGreaterThanOrEqual(inductionMinutes(sheet, warmer).minutes - 1e-9);
      expect(wait).toBeLessThanOrEqual((sheet[0]?.minutes ?? 0) + 1e-9);
      expect(wait).toBeGreaterThanOrEqual((sheet[sheet.length - 1]?.minutes ?? 0) - 1e-9);
    }),
    { seed: 7, numRuns: 300 },
  );
});

test('no induction is written as 0 min; a table without lines is refused', () => {
  expect(inductionMinutes([{ c: 10, minutes: 0 }], 20).minutes).toBe(0);
  expect(() => inductionMinutes([], 20)).toThrow(TradeRefusal);
});
