import { describe, expect, test } from 'vitest';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { tipCode, tipFlowLPerMin } from '../../src/trade/tip.ts';

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
