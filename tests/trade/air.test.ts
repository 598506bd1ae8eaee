import fc from 'fast-check';
import { expect, test } from 'vitest';
import { freeAirLPerMin } from '../../src/trade/air.ts';

const plain = { ratio: 45, fluidLPerMin: 1.2, airBar: 5, ambientBar: 1.013 };

test('no flow takes no air; no pressure takes the fluid volume times the ratio', () => {
  expect(freeAirLPerMin({ ...plain, fluidLPerMin: 0 })).toBe(0);
  expect(freeAirLPerMin({ ...plain, airBar: 0 })).toBeCloseTo(54, 9);
});

test('more of anything takes more air, and so does thinner air around', () => {
  const more = fc.double({ min: 0, max: 5, noNaN: true });
  fc.assert(
    fc.property(more, (by) => {
      const least = freeAirLPerMin(plain);
      for (const field of ['ratio', 'fluidLPerMin', 'airBar'] as const)
        expect(freeAirLPerMin({ ...plain, [field]: plain[field] + by })).toBeGreaterThanOrEqual(least);
      expect(freeAirLPerMin({ ...plain, ambientBar: 1.013 - by / 10 })).toBeGreaterThanOrEqual(least);
    }),
    { seed: 7 },
  );
});
