import { describe, expect, test } from 'vitest';
import { inchesToMillimetres, psiToBar, usGallonsToLitres } from '../../src/trade/convert.ts';
import { CHART_CD, tipCode, tipFlowLPerMin } from '../../src/trade/tip.ts';
import type { Sourced } from './row.ts';

const flow = (inches: number, psi: number, density: number, cd = CHART_CD) =>
  tipFlowLPerMin({ orificeMm: inchesToMillimetres(inches), bar: psiToBar(psi), densityKgPerM3: density, cd });

const ORIFICE: Sourced = { source: 'orifice equation Q = Cd·A·√(2Δp/ρ)', mark: 'definition' };
const CHART: Sourced = { source: 'flow charts of water by tip size in the trade', mark: 'practice' };

describe('tip code', () => {
  const rows: readonly ({ code: string; fanIn: number; orificeIn: number } & Sourced)[] = [
    {
      code: '617',
      fanIn: 12,
      orificeIn: 0.017,
      source: 'US DoD aircraft coating manual (fan width)',
      mark: 'read',
    },
    {
      code: '517',
      fanIn: 10,
      orificeIn: 0.017,
      source: 'US DoD aircraft coating manual (fan width)',
      mark: 'read',
    },
    { code: '415', fanIn: 8, orificeIn: 0.015, source: 'three-digit code of the trade', mark: 'practice' },
  ];
  test.each(rows)('$code: $fanIn in fan, $orificeIn in orifice [$mark: $source]', (row) => {
    const found = tipCode(row.code);
    expect(found.fanMm).toBeCloseTo(row.fanIn * 25.4, 9);
    expect(found.orificeMm).toBeCloseTo(row.orificeIn * 25.4, 9);
  });
});

describe('flow of water at 2000 psi', () => {
  const rows: readonly ({ inches: number; litres: number } & Sourced)[] = [
    { inches: 0.011, litres: 0.489, ...ORIFICE },
    { inches: 0.013, litres: 0.683, ...ORIFICE },
    { inches: 0.015, litres: 0.91, ...ORIFICE },
    { inches: 0.017, litres: 1.168, ...ORIFICE },
    { inches: 0.019, litres: 1.459, ...ORIFICE },
    { inches: 0.021, litres: 1.783, ...ORIFICE },
    { inches: 0.023, litres: 2.139, ...ORIFICE },
    { inches: 0.025, litres: 2.527, ...ORIFICE },
    { inches: 0.027, litres: 2.947, ...ORIFICE },
    { inches: 0.031, litres: 3.885, ...ORIFICE },
    { inches: 0.035, litres: 4.952, ...ORIFICE },
  ];
  test.each(rows)('$inches in, Cd 0.80: $litres L/min [$mark: $source]', ({ inches, litres }) => {
    expect(Math.abs(flow(inches, 2000, 998.2) - litres)).toBeLessThan(0.005);
  });

  const charted: readonly ({ inches: number; gpm: number } & Sourced)[] = [
    { inches: 0.011, gpm: 0.13, ...CHART },
    { inches: 0.013, gpm: 0.18, ...CHART },
    { inches: 0.015, gpm: 0.24, ...CHART },
    { inches: 0.017, gpm: 0.31, ...CHART },
    { inches: 0.019, gpm: 0.39, ...CHART },
    { inches: 0.021, gpm: 0.47, ...CHART },
    { inches: 0.023, gpm: 0.57, ...CHART },
    { inches: 0.025, gpm: 0.67, ...CHART },
    { inches: 0.027, gpm: 0.77, ...CHART },
    { inches: 0.031, gpm: 1.03, ...CHART },
    { inches: 0.035, gpm: 1.31, ...CHART },
  ];
  test.each(charted)('$inches in: $gpm US gal/min within 2 % [$mark: $source]', ({ inches, gpm }) => {
    expect(Math.abs(flow(inches, 2000, 998.2) / usGallonsToLitres(gpm) - 1)).toBeLessThan(0.02);
  });
});

describe('flow of paint and its scaling', () => {
  test.each([
    { psi: 2000, litres: 0.987 },
    { psi: 3000, litres: 1.208 },
  ])('0.017 in at $psi psi, 1400 kg/m³, Cd 0.80: $litres L/min', ({ psi, litres }) => {
    expect(Math.abs(flow(0.017, psi, 1400) - litres)).toBeLessThan(0.005);
  });

  test('twice the pressure gives √2 times the flow; 0.017 to 0.021 in gives 1.526 times', () => {
    expect(flow(0.017, 3000, 1400) / flow(0.017, 1500, 1400)).toBeCloseTo(Math.SQRT2, 4);
    expect(flow(0.021, 2000, 1400) / flow(0.017, 2000, 1400)).toBeCloseTo(1.526, 4);
  });

  test('the same orifice with another fan delivers the same (UFC 3-190-06): the fan is no input', () => {
    expect(tipCode('417').orificeMm).toBe(tipCode('617').orificeMm);
  });
});
