import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { litresForRatio, litresForRatioDown, tenthUp, wholeUp } from '../../src/facts/round.ts';

describe('litres of a mix', () => {
  it.each([
    // Parts of 5 L at 10 : 1, of 20 L at 10 : 1, and a third of a litre: V·R/(R+1) and V/(R+1), worked by hand.
    [5 * (10 / 11), 4.545, 4.545],
    [5 / 11, 0.455, 0.454],
    [20 * (10 / 11), 18.18, 18.18],
    [20 / 11, 1.818, 1.818],
    [1 / 3, 0.333, 0.333],
    [16, 16, 16],
    [0.0296, 0.0296, 0.0296],
    [0, 0, 0],
    // 0.1 + 0.2 is 0.30000000000000004, and 0.29 times 100 is 28.999999999999996 in binary.
    [0.1 + 0.2, 0.3, 0.3],
    [10.29, 10.29, 10.29],
  ])('%d L is said as %d L, and as %d L of thinner', (value, near, down) => {
    expect(litresForRatio(value)).toBe(near);
    expect(litresForRatioDown(value)).toBe(down);
  });

  it('keeps the ratio of what is printed within 1 %', () => {
    const part = fc.double({ min: 0.01, max: 1000, noNaN: true });
    fc.assert(
      fc.property(part, part, (a, b) => {
        expect(Math.abs(litresForRatio(a) / litresForRatio(b) / (a / b) - 1)).toBeLessThan(0.0101);
      }),
    );
  });

  it('never gives more thinner than was worked out, and at most a hundredth less', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 1000, noNaN: true }), (litres) => {
        const said = litresForRatioDown(litres);
        expect(said).toBeLessThanOrEqual(litres + 1e-6);
        expect(said).toBeGreaterThan(litres * 0.99 - 1e-9);
      }),
    );
  });
});

describe('rounding up', () => {
  it('leaves a whole number and a tenth alone, dust included, and lifts everything else', () => {
    expect([198.00000000000003, 198.01, 7].map(wholeUp)).toEqual([198, 199, 7]);
    expect([6.000000000000001, 5.91, 5.9].map(tenthUp)).toEqual([6, 6, 5.9]);
  });
});
