import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { m2PerMinute } from '../../src/trade/spray-rate.ts';
import { isTipCode, tipCode, tipFlowLPerMin } from '../../src/trade/tip.ts';

describe('tip code', () => {
  test.each([
    '',
    '51',
    '0517',
    '5171',
    '017',
    '500',
    '504',
    '5l7',
    ' 517',
    '517 ',
    '5.7',
    '-17',
    '٥١٧',
    'FF517',
  ])('refuses "%s" rather than guess', (code) => {
    expect(() => tipCode(code)).toThrow(expect.objectContaining({ field: 'code', value: code }));
    expect(isTipCode(code)).toBe(false);
  });

  test('every code that can be read is said to be one', () => {
    const readable = Array.from({ length: 1000 }, (_, n) => String(n).padStart(3, '0')).filter(isTipCode);
    expect(readable).toHaveLength(9 * 95);
    for (const code of readable) expect(tipCode(code).orificeMm).toBeGreaterThan(0.12);
  });

  test('refuses a number, because 017 and 17 would look the same', () => {
    expect(() => tipCode(517 as unknown as string)).toThrow(TradeRefusal);
  });

  test('reads the smallest and the largest code', () => {
    expect(tipCode('105').fanMm).toBeCloseTo(50.8, 9);
    expect(tipCode('105').orificeMm).toBeCloseTo(0.127, 9);
    expect(tipCode('999').fanMm).toBeCloseTo(457.2, 9);
    expect(tipCode('999').orificeMm).toBeCloseTo(2.5146, 9);
  });
});

test('flow grows with orifice, pressure and Cd, and falls with density', () => {
  const base = { orificeMm: 0.43, bar: 200, densityKgPerM3: 1400, cd: 0.8 };
  const flow = tipFlowLPerMin(base);
  expect(tipFlowLPerMin({ ...base, orificeMm: 0.5 })).toBeGreaterThan(flow);
  expect(tipFlowLPerMin({ ...base, bar: 220 })).toBeGreaterThan(flow);
  expect(tipFlowLPerMin({ ...base, cd: 0.9 })).toBeGreaterThan(flow);
  expect(tipFlowLPerMin({ ...base, densityKgPerM3: 1600 })).toBeLessThan(flow);
});

test('a larger orifice or more pressure never lets less through', () => {
  const size = fc.double({ min: 0.1, max: 2.9, noNaN: true });
  const bar = fc.double({ min: 0, max: 900, noNaN: true });
  const more = fc.double({ min: 0, max: 0.1, noNaN: true });
  fc.assert(
    fc.property(size, bar, more, (orificeMm, pressure, by) => {
      const base = { orificeMm, bar: pressure, densityKgPerM3: 1400, cd: 0.8 };
      const flow = tipFlowLPerMin(base);
      expect(tipFlowLPerMin({ ...base, orificeMm: orificeMm + by })).toBeGreaterThanOrEqual(flow);
      expect(tipFlowLPerMin({ ...base, bar: pressure + by })).toBeGreaterThanOrEqual(flow);
    }),
    { seed: 7 },
  );
});

describe('m² a minute', () => {
  const job = { flowLPerMin: 1.2, volumeSolidsPct: 80, thinnerPct: 0, dftUm: 160, lossPct: 30 };

  test('worked by hand: 1.2 L/min × 10 × 80 % ÷ 160 µm, less 30 %', () => {
    expect(m2PerMinute(job)).toBeCloseTo(1.2 * 5 * 0.7, 9);
    expect(m2PerMinute({ ...job, thinnerPct: 10 })).toBeCloseTo((1.2 * 5 * 0.7) / 1.1, 9);
    expect(m2PerMinute({ ...job, profileAllowanceUm: 40 })).toBeCloseTo(1.2 * 4 * 0.7, 9);
  });

  test('thinner, film, profile and loss never make it faster', () => {
    const more = fc.double({ min: 0, max: 50, noNaN: true });
    fc.assert(
      fc.property(more, (by) => {
        const base = { ...job, profileAllowanceUm: 0 };
        for (const field of ['thinnerPct', 'dftUm', 'lossPct', 'profileAllowanceUm'] as const)
          expect(m2PerMinute({ ...base, [field]: base[field] + by })).toBeLessThanOrEqual(m2PerMinute(base));
      }),
      { seed: 7 },
    );
  });
});
